package engine

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"keelroom/geo/chart"
	"keelroom/geo/enc"
	"keelroom/geo/layer"
	"keelroom/hazards"
)

// loadedSet is a chart that the checks go by: the GeoJSON layers or one of the
// cells that were given together.
type loadedSet struct {
	id   string // of all that was given together
	view string // of this chart, see PartInfo
	set  *chart.Set
	cell *enc.Cell // nil for GeoJSON layers
	// Messages of the set alone, and with what the other sets tell.
	own, hinted []chart.Message
}

// mostListed is how many messages of a set are told one by one.
const mostListed = 200

// putSet takes charts in that were given together.
func (s *Service) putSet(j *job) error {
	if err := s.says(j, "Reading the chart."); err != nil {
		return err
	}
	charts, messages, err := enc.ReadCharts(j.Files, func() error { s.turn(); return nil })
	if err != nil {
		return err
	}
	info := SetInfo{ID: j.Set, Name: j.Name}
	if why := s.lost(j.Set, charts, messages); why != "" {
		info.list(messages)
		return failed(why, info)
	}
	if len(charts) == 0 {
		info.list(messages)
		return failed(refusedWords(messages), info)
	}
	var fresh []*loadedSet
	texts := map[string]string{}
	for i, c := range charts {
		if err := s.says(j, drawingWords(i, len(charts))); err != nil {
			return err
		}
		l := &loadedSet{id: j.Set, view: j.Set, set: c.Set, cell: c.Cell}
		if len(charts) > 1 {
			l.view = fmt.Sprintf("%s/%d", j.Set, i)
		}
		texts[drawText(i)] = string(Draw(l.view, c.Set, s.turn))
		fresh = append(fresh, l)
	}
	// What was refused beside what was read is told with the first chart, in the
	// reports too: part of a chart must not pass for the whole.
	fresh[0].set.Messages = slices.Concat(messages, fresh[0].set.Messages)
	for _, l := range fresh {
		l.own = l.set.Messages
	}
	if i := s.indexOf(j.Set); i >= 0 {
		s.sets = slices.Insert(s.without(j.Set), i, fresh...)
	} else {
		s.sets = append(s.sets, fresh...)
	}
	s.changed()
	s.hint()
	return s.done(j, infoOf(fresh, j.Name), texts)
}

// drawText is the name of the text that holds the drawing of a chart of a reply.
func drawText(i int) string {
	if i == 0 {
		return "draw"
	}
	return "draw" + strconv.Itoa(i)
}

func drawingWords(i, of int) string {
	if of == 1 {
		return "Drawing the chart."
	}
	return fmt.Sprintf("Drawing chart %d of %d.", i+1, of)
}

// lost says why charts cannot take the place of those with the same id: a cell
// would be lost, or become older. "" is no reason.
func (s *Service) lost(id string, charts []enc.Chart, messages []chart.Message) string {
	for _, l := range s.sets {
		if l.id != id || l.cell == nil {
			continue
		}
		i := slices.IndexFunc(charts, func(c enc.Chart) bool { return c.Cell != nil && c.Cell.Name == l.cell.Name })
		switch {
		case i < 0:
			return l.cell.Name + " stays as it was. " + refusedWords(messages)
		case cellInfo(l.cell, l.set).Later(cellInfo(charts[i].Cell, charts[i].Set)):
			return fmt.Sprintf("%s stays as it was: what is open is edition %s, update %s, and what was given would make it edition %s, update %s. %s", l.cell.Name,
				l.cell.Edition, l.cell.Update, charts[i].Cell.Edition, charts[i].Cell.Update, refusedWords(messages))
		}
	}
	return ""
}

// Later tells whether a cell is of a later edition than another, or has more
// updates in it.
func (c *CellInfo) Later(than *CellInfo) bool {
	number := func(s string) int { n, _ := strconv.Atoi(s); return n }
	if a, b := number(c.Edition), number(than.Edition); a != b {
		return a > b
	}
	return number(c.Update) > number(than.Update)
}

// refusedWords says why a set was refused.
func refusedWords(messages []chart.Message) string {
	for _, m := range messages {
		if m.Level == chart.FileError {
			return "Nothing of it was taken: " + m.String() + "."
		}
	}
	return "There is no chart in it that can be read."
}

func (s *Service) dropSet(j *job) error {
	if s.indexOf(j.Set) >= 0 {
		s.sets = s.without(j.Set)
		s.changed()
		s.hint()
	}
	return s.done(j, nil, nil)
}

func (s *Service) indexOf(id string) int {
	return slices.IndexFunc(s.sets, func(l *loadedSet) bool { return l.id == id })
}

// without are the charts but those with an id.
func (s *Service) without(id string) []*loadedSet {
	return slices.DeleteFunc(slices.Clone(s.sets), func(l *loadedSet) bool { return l.id == id })
}

// changed forgets the chart, and ends the ribbons that were asked for before:
// one ribbon must not be about two charts.
func (s *Service) changed() {
	s.chart, s.session = nil, nil
	s.mu.Lock()
	defer s.mu.Unlock()
	s.cancel(func(j *job) bool { return j.ribbon != nil })
}

// hint adds to the messages of each set what only the others tell.
func (s *Service) hint() {
	for _, l := range s.sets {
		l.set.Messages = l.own
	}
	layer.AddSwapHints(s.chartSets())
	for _, l := range s.sets {
		l.hinted = slices.Clip(l.set.Messages)
	}
}

func (s *Service) chartSets() []*chart.Set {
	sets := make([]*chart.Set, len(s.sets))
	for i, l := range s.sets {
		sets[i] = l.set
	}
	return sets
}

// ready is the session over all sets, made anew where they have changed.
func (s *Service) ready(j *job) (*hazards.Session, error) {
	if s.session != nil {
		return s.session, nil
	}
	if len(s.sets) > 0 {
		if err := s.says(j, "Putting the charts together."); err != nil {
			return nil, err
		}
	}
	s.chart = chart.New(s.chartSets()...)
	s.bounds, s.bounded = s.chart.Bounds()
	s.session = hazards.NewSession(s.chart)
	s.session.Between = s.pause
	return s.session, s.pause()
}

// turn lets the event loop have its turn if it is due.
func (s *Service) turn() { _ = s.pause() }

// infoOf tells what is told of charts that were given together: what they state is
// that of the first, their objects and messages are those of all.
func infoOf(of []*loadedSet, name string) SetInfo {
	s := of[0].set
	info := SetInfo{ID: of[0].id, Title: s.Title, Name: name, Authority: s.Authority.String(), Scale: s.Scale,
		Datum: s.SoundingDatum, DatumName: hazards.DatumName(s.SoundingDatum), Edition: s.Edition, IssueDate: s.IssueDate,
		Source: s.Source, Licence: s.Licence}
	var messages []chart.Message
	for i, l := range of {
		info.Features += len(l.set.Features)
		info.Bounds = joined(info.Bounds, boundsOf(l.set))
		info.Parts = append(info.Parts, PartInfo{View: l.view, Draw: drawText(i), Scale: l.set.Scale, Cell: cellInfo(l.cell, l.set)})
		messages = append(messages, l.set.Messages...)
	}
	info.list(messages)
	return info
}

func cellInfo(c *enc.Cell, s *chart.Set) *CellInfo {
	if c == nil {
		return nil
	}
	return &CellInfo{Name: c.Name, File: c.File, Edition: c.Edition, Update: c.Update, IssueDate: c.IssueDate, Applied: len(c.Applied), Scale: c.Scale,
		Producer: c.Producer, Purpose: c.Use.String(), Comment: c.Comment, DatumName: hazards.DatumName(s.SoundingDatum), Bounds: boundsOf(s)}
}

// joined is the box about two boxes.
func joined(a, b *[4]float64) *[4]float64 {
	if a == nil || b == nil {
		return cmp.Or(a, b)
	}
	return &[4]float64{min(a[0], b[0]), min(a[1], b[1]), max(a[2], b[2]), max(a[3], b[3])}
}

// list lists messages, as many as are read.
func (i *SetInfo) list(messages []chart.Message) {
	i.Messages = listed(messages[:min(len(messages), mostListed)])
	i.More = len(messages) - len(i.Messages)
}

func listed(messages []chart.Message) []SetMessage {
	out := make([]SetMessage, len(messages))
	for i, m := range messages {
		out[i] = SetMessage{m.Level.String(), m.Code, m.File, m.Path, m.Found, m.Wanted}
	}
	return out
}

// boundsOf is the box about all positions of a set, refused features included.
func boundsOf(s *chart.Set) *[4]float64 {
	var lo, hi chart.Coord
	found := false
	grow := func(c chart.Coord) {
		if !found {
			lo, hi, found = c, c, true
		}
		lo = chart.Coord{Lon: min(lo.Lon, c.Lon), Lat: min(lo.Lat, c.Lat)}
		hi = chart.Coord{Lon: max(hi.Lon, c.Lon), Lat: max(hi.Lat, c.Lat)}
	}
	for i := range s.Features {
		for _, c := range s.Features[i].Coords {
			grow(c)
		}
	}
	for _, r := range s.Refused {
		if !r.Boxless {
			grow(r.Min)
			grow(r.Max)
		}
	}
	if !found {
		return nil
	}
	a, b := lo.Position(), hi.Position()
	return &[4]float64{a[0], a[1], b[0], b[1]}
}
