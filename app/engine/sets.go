package engine

import (
	"slices"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/hazards"
)

// loadedSet is a layer set that the checks go by.
type loadedSet struct {
	id  string
	set *chart.Set
	// Messages of the set alone, and with what the other sets tell.
	own, hinted []chart.Message
}

// mostListed is how many messages of a set are told one by one.
const mostListed = 200

// putSet takes a layer set in.
func (s *Service) putSet(j *job) error {
	if err := s.says(j, "Reading the chart."); err != nil {
		return err
	}
	set, messages := layer.DecodeWith(j.Files, s.turn)
	if set == nil {
		info := SetInfo{ID: j.Set, Name: j.Name}
		info.list(messages)
		return failed(refusedWords(messages), info)
	}
	if err := s.says(j, "Drawing the chart."); err != nil {
		return err
	}
	draw := Draw(j.Set, set, s.turn)
	one := &loadedSet{id: j.Set, set: set, own: set.Messages}
	if i := s.indexOf(j.Set); i >= 0 {
		s.sets[i] = one
	} else {
		s.sets = append(s.sets, one)
	}
	s.changed()
	s.hint()
	return s.done(j, infoOf(one, j.Name), map[string]string{"draw": string(draw)})
}

// refusedWords says why a set was refused.
func refusedWords(messages []chart.Message) string {
	for _, m := range messages {
		if m.Level == chart.FileError {
			return "Nothing of it was taken: " + m.String() + "."
		}
	}
	return "It could not be read as a chart."
}

func (s *Service) dropSet(j *job) error {
	if i := s.indexOf(j.Set); i >= 0 {
		s.sets = slices.Delete(s.sets, i, i+1)
		s.changed()
		s.hint()
	}
	return s.done(j, nil, nil)
}

func (s *Service) indexOf(id string) int {
	return slices.IndexFunc(s.sets, func(l *loadedSet) bool { return l.id == id })
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

// infoOf tells what is told of a set.
func infoOf(l *loadedSet, name string) SetInfo {
	s := l.set
	info := SetInfo{ID: l.id, Title: s.Title, Name: name, Authority: s.Authority.String(), Scale: s.Scale,
		Datum: s.SoundingDatum, DatumName: hazards.DatumName(s.SoundingDatum), Edition: s.Edition, IssueDate: s.IssueDate,
		Source: s.Source, Licence: s.Licence, Features: len(s.Features), Bounds: boundsOf(s)}
	info.list(s.Messages)
	return info
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
