package engine

import (
	"fmt"
	"slices"

	"keelroom/geo/chart"
	"keelroom/geo/enc"
	"keelroom/geo/layer"
	"keelroom/geo/library"
	"keelroom/hazards"
	"keelroom/hazards/words"
)

// loadedSet is a chart that the checks go by.
type loadedSet struct {
	id      string
	set     *chart.Set
	cell    *enc.Cell // nil for GeoJSON layers
	objects library.Objects
	// Messages of the set alone, and with what only the others show.
	own, hinted []chart.Message
}

// mostListed is how many messages of a set are listed one by one.
const mostListed = 200

// sortFiles sorts the files of cells by what they say of themselves.
func (f *files) sortFiles(j *job) error {
	if err := f.jobs.progress(j, "Looking into the files."); err != nil {
		return err
	}
	d := enc.Decoder{Between: f.pace.pause, Unpacked: f.unpacking(j)}
	sorted, messages, err := d.Sort(j.Files)
	if err != nil {
		return err
	}
	body := SortBody{Files: sorted}
	files := make([]layer.File, len(sorted))
	for i, f := range sorted {
		files[i] = layer.File{Name: f.Name, Data: f.Data.Bytes()}
	}
	for _, m := range messages {
		body.Messages = append(body.Messages, setMessage(m))
	}
	raw, err := bodyOf(body)
	if err != nil {
		return err
	}
	f.jobs.post(j, Reply{State: Done, Body: raw, Files: files})
	return nil
}

// unpacking shows now and then how much has come out of archives.
func (f *files) unpacking(j *job) func(bytes int) {
	shown := 0
	return func(bytes int) {
		const step = 8 << 20
		if bytes-shown >= step {
			shown = bytes
			f.jobs.post(j, Reply{State: Progress, Words: fmt.Sprintf("Unpacking: %d MB.", bytes>>20), Done: bytes})
		}
	}
}

// putSet takes a chart in.
func (c *collection) putSet(j *job) error {
	bytes := 0
	for _, f := range j.Files {
		bytes += len(f.Data)
	}
	memory := spare(bytes)
	defer memory.done()
	if err := c.jobs.progress(j, "Reading the chart."); err != nil {
		return err
	}
	charts, messages, err := enc.ReadCharts(j.Files, func() error { c.pace.turn(); return nil })
	if err != nil {
		return err
	}
	for _, m := range j.LeftOut {
		messages = append(messages, m.message())
	}
	if why := c.refused(j.Set, charts, messages); why != "" {
		info := SetInfo{ID: j.Set, Name: j.Name}
		info.Messages, info.More = listed(messages)
		return failed(why, info)
	}
	if err := c.jobs.progress(j, "Drawing the chart."); err != nil {
		return err
	}
	l := &loadedSet{id: j.Set, set: charts[0].Set, cell: charts[0].Cell, objects: library.ObjectsOf(charts[0].Set)}
	j.Files = nil
	memory.collect()
	draw := Draw(l.id, l.set, c.pace.turn)
	// What was refused beside what was read is in the reports too: part of a
	// chart must not pass for the whole.
	l.set.Messages = slices.Concat(messages, l.set.Messages)
	l.own = l.set.Messages
	if i := c.indexOf(j.Set); i >= 0 {
		c.sets[i] = l
	} else {
		c.sets = append(c.sets, l)
	}
	c.changed()
	c.hint()
	info := infoOf(l, j.Name)
	info.Same = c.sameAs(l)
	raw, err := bodyOf(info)
	if err != nil {
		return err
	}
	c.jobs.post(j, Reply{State: Done, Body: raw, Drawing: draw})
	return nil
}

// refused says why what was read cannot be the chart with an id: it is none or
// several, or would make a cell older. "" is no reason.
func (c *collection) refused(id string, charts []enc.Loaded, messages []chart.Message) string {
	var open *loadedSet
	if i := c.indexOf(id); i >= 0 {
		open = c.sets[i]
	}
	stays := ""
	if open != nil && open.cell != nil {
		stays = open.cell.Name + " stays as it was. "
	}
	switch {
	case len(charts) == 0:
		return stays + refusedWords(messages)
	case len(charts) > 1:
		return stays + fmt.Sprintf("It holds %d charts. Give one at a time.", len(charts))
	case stays == "":
		return ""
	case charts[0].Cell == nil:
		return stays + anotherChart
	}
	was, now := open.cell, charts[0].Cell
	switch library.Replaces(was.Name, was.State(), now.Name, now.State()) {
	case library.AnotherChart:
		return stays + anotherChart
	case library.OlderState:
		return fmt.Sprintf("%sIt is edition %s, update %s; what was given would make it edition %s, update %s.", stays, was.Edition, was.Update, now.Edition, now.Update)
	}
	return ""
}

const anotherChart = "What was given is another chart."

// refusedWords says why a set was refused.
func refusedWords(messages []chart.Message) string {
	for _, m := range messages {
		if m.Level == chart.FileError {
			return "Nothing of it was taken: " + m.String() + "."
		}
	}
	return "There is no chart in it that can be read."
}

// sameAs are the ids of the loaded sets that are the same chart as one.
func (c *collection) sameAs(l *loadedSet) (ids []string) {
	for _, o := range c.sets {
		if o != l && library.SameChart(l.objects, o.objects) {
			ids = append(ids, o.id)
		}
	}
	return ids
}

func (c *collection) dropSet(j *job) error {
	if i := c.indexOf(j.Set); i >= 0 {
		c.sets = slices.Delete(c.sets, i, i+1)
		c.changed()
		c.hint()
	}
	return c.jobs.done(j, nil, nil)
}

func (c *collection) indexOf(id string) int {
	return slices.IndexFunc(c.sets, func(l *loadedSet) bool { return l.id == id })
}

// changed forgets the chart, and ends the long work that was asked for before: one
// ribbon, or one search, must not be about two charts.
func (c *collection) changed() {
	c.chart, c.session = nil, nil
	c.jobs.mu.Lock()
	defer c.jobs.mu.Unlock()
	c.jobs.cancel(func(j *job) bool { return j.ribbon != nil || j.lying != nil || j.grid != nil })
}

// hint adds to the messages of each set what only the others show.
func (c *collection) hint() {
	for _, l := range c.sets {
		l.set.Messages = l.own
	}
	layer.AddSwapHints(c.chartSets())
	for _, l := range c.sets {
		l.hinted = slices.Clip(l.set.Messages)
	}
}

func (c *collection) chartSets() []*chart.Set {
	sets := make([]*chart.Set, len(c.sets))
	for i, l := range c.sets {
		sets[i] = l.set
	}
	return sets
}

// ready is the session over all sets, made anew where they have changed.
func (c *collection) ready(j *job) (*hazards.Session, error) {
	if c.session != nil {
		return c.session, nil
	}
	if len(c.sets) > 0 {
		if err := c.jobs.progress(j, "Putting the charts together."); err != nil {
			return nil, err
		}
	}
	const perPosition = 16 // bytes of a file, at least, as programs write them
	memory := spare(perPosition * c.positions())
	defer memory.done()
	memory.collect()
	c.chart = chart.NewBetween(c.pace.turn, c.chartSets()...)
	c.bounds, c.bounded = c.chart.Bounds()
	c.session = hazards.NewSession(c.chart)
	c.session.Between = c.pace.pause
	return c.session, c.pace.pause()
}

// turn lets the event loop have its turn if it is due.
func (p *pace) turn() { _ = p.pause() }

func infoOf(l *loadedSet, name string) SetInfo {
	s := l.set
	info := SetInfo{ID: l.id, Title: s.Title, Name: name, Authority: s.Authority.String(), Scale: s.Scale,
		Datum: s.SoundingDatum, DatumName: words.English.Datum(s.SoundingDatum), Edition: s.Edition, IssueDate: s.IssueDate,
		Source: s.Source, Licence: s.Licence, Features: len(s.Features), Bounds: boundsOf(s), Cell: cellInfo(l.cell, s)}
	info.Messages, info.More = listed(s.Messages)
	return info
}

func cellInfo(c *enc.Cell, s *chart.Set) *CellInfo {
	if c == nil {
		return nil
	}
	return &CellInfo{Name: c.Name, File: c.File, Edition: c.Edition, Update: c.Update, IssueDate: c.IssueDate, Applied: len(c.Applied), Cancelled: c.Cancelled, Scale: c.Scale,
		Producer: c.Producer, Purpose: c.Use.String(), Comment: c.Comment, DatumName: words.English.Datum(s.SoundingDatum), Bounds: boundsOf(s)}
}

// listed lists messages, those of one code and cause counted after the first, as
// many as are read, and counts the others.
func listed(messages []chart.Message) (list []SetMessage, more int) {
	messages = layer.Counted(messages)
	shown := messages[:min(len(messages), mostListed)]
	list = make([]SetMessage, len(shown))
	for i, m := range shown {
		list[i] = setMessage(m)
	}
	return list, len(messages) - len(shown)
}

func setMessage(m chart.Message) SetMessage {
	return SetMessage{Level: m.Level.String(), Code: m.Code, File: m.File, Path: m.Path, Found: m.Found, Wanted: m.Wanted, More: m.More}
}

// Counted lists the first messages of one code and cause and counts the others, as
// they are shown.
func Counted(list []SetMessage) []SetMessage {
	messages := make([]chart.Message, len(list))
	for i, m := range list {
		messages[i] = m.message()
	}
	messages = layer.Counted(messages)
	out := make([]SetMessage, len(messages))
	for i, m := range messages {
		out[i] = setMessage(m)
	}
	return out
}

// Library is a message as the collection keeps it.
func (m SetMessage) Library() library.Message {
	return library.Message{Message: m.message(), Edition: m.Edition, Update: m.Update}
}

// KeptMessage is a message of the collection as it is sent and stored.
func KeptMessage(m library.Message) SetMessage {
	kept := setMessage(m.Message)
	kept.Edition, kept.Update = m.Edition, m.Update
	return kept
}

func (m SetMessage) message() chart.Message {
	level := chart.Warning
	for _, l := range []chart.Level{chart.FeatureError, chart.FileError} {
		if m.Level == l.String() {
			level = l
		}
	}
	return chart.Message{Level: level, Code: m.Code, File: m.File, Path: m.Path, Found: m.Found, Wanted: m.Wanted, More: m.More}
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
