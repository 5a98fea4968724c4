package layer

import (
	"cmp"
	"fmt"
	"strconv"

	"keelroom/geo/chart"
)

// Builder makes a layer set of objects, whatever format they come from. Its
// zero value is ready. It must not be used by several goroutines at once.
type Builder struct {
	Log Log

	set    chart.Set
	shaper shaper
	coords slab[chart.Coord]
	ends   slab[int32]
	depths slab[float64]
	seen   map[uint64]int32 // features by their hash, index + 1
	twins  []uint64         // hash of all attributes of each feature

	described []DataSet
	headers   []Header
	coded     bool // some object came with an S-57 class number
	covered   bool // M_COVR was among the objects
	undated   bool // some depth has no datum of its own
	datumArea bool // M_SDAT was among the objects
}

// Header is what a layer says about itself. Empty texts and zeros say nothing.
type Header struct {
	Title, Source, Licence, Edition, IssueDate string

	Authority     string // official, derived, private
	Scale         int    // denominator
	SoundingDatum int    // VERDAT
}

// DataSet is what the identification of an S-57 data set says (DSID, DSPM).
// Zeros are not stated.
type DataSet struct {
	Name, Edition, Update, IssueDate string

	SoundingDatum, HeightDatum             int // VERDAT
	HorizontalDatum, DepthUnit, HeightUnit int // HDAT, DUNI, HUNI
	Scale                                  int // CSCL, denominator

	File  string
	Where func(attribute string) string // as in Object
}

// Reserve makes room for n more features.
func (b *Builder) Reserve(n int) {
	if free := cap(b.set.Features) - len(b.set.Features); n > free {
		grown := make([]chart.Feature, len(b.set.Features), len(b.set.Features)+n)
		copy(grown, b.set.Features)
		b.set.Features = grown
	}
}

// Header takes in what a layer says about itself.
func (b *Builder) Header(h Header) { b.headers = append(b.headers, h) }

// Describe takes in the identification of a data set. Depths or heights that
// are not in metres are E-UNIT for the file; positions on another horizontal
// datum than WGS 84 are W-DATUM.
func (b *Builder) Describe(d DataSet) {
	b.cutTexts(d.File, d.Where, map[string]*string{"DSID_DSNM": &d.Name, "DSID_EDTN": &d.Edition, "DSID_UPDN": &d.Update, "DSID_ISDT": &d.IssueDate})
	say := func(level chart.Level, code, name string, found int, wanted string) {
		b.Log.Add(chart.Message{
			Level: level, Code: code, File: d.File, Path: d.Where(name), Found: strconv.Itoa(found), Wanted: wanted,
		})
	}
	if d.DepthUnit != 0 && d.DepthUnit != 1 {
		say(chart.FileError, "E-UNIT", "DSPM_DUNI", d.DepthUnit, "depths in metres, DUNI 1")
	}
	if d.HeightUnit != 0 && d.HeightUnit != 1 {
		say(chart.FileError, "E-UNIT", "DSPM_HUNI", d.HeightUnit, "heights in metres, HUNI 1")
	}
	if d.HorizontalDatum != 0 && d.HorizontalDatum != wgs84 {
		b.set.OffDatum = true
		say(chart.Warning, "W-DATUM", "DSPM_HDAT", d.HorizontalDatum, "2, WGS 84; positions may be 100 m out")
	}
	b.described = append(b.described, d)
}

// wgs84 is the HDAT of WGS 84 (S-57 App. A, attribute 400).
const wgs84 = 2

// Coded notes that an object came with an S-57 class number: such a set should
// have a DSID.
func (b *Builder) Coded() { b.coded = true }

// Add interprets an object and adds its feature to the set, or notes why it is
// left out. Collections (C_AGGR, C_ASSO, C_STAC) are ignored.
func (b *Builder) Add(o *Object) { b.add(o, nil) }

// AddWith is Add for an object of which the decoder found something wrong
// before: what is no warning leaves the object out. Then the box of what
// geometry it has counts as unknown, or all of the set where it has none.
func (b *Builder) AddWith(o *Object, found []chart.Message) { b.add(o, found) }

// add is Add for an object of which something was found wrong before.
func (b *Builder) add(o *Object, before []chart.Message) {
	if o.Class >= chart.CAGGR && o.Class <= chart.CSTAC && len(before) == 0 {
		return
	}
	r := reading{Object: o}
	given := o.Geometry
	for _, m := range before {
		r.problems = append(r.problems, m)
		r.failed = r.failed || m.Level != chart.Warning
	}
	if r.Class != unreadClass && r.Class != chart.NoClass && r.Class.Acronym() == "" {
		r.unlisted()
	}
	geometryFailed := r.failed && len(given.Coords) == 0
	switch {
	case geometryFailed:
	case given.Prim == chart.None:
		r.fail("E-GEOM", "", "no geometry", "a point, line or area")
	default:
		b.shaper.shape(&r)
	}
	f := featureMaker{&r}.feature()
	r.Geometry = given
	for _, m := range r.problems {
		b.Log.Add(m)
	}
	if r.failed {
		b.refuse(&r)
		return
	}
	b.keep(f, o)
}

// refuse notes that an object was left out, if a check would have needed it.
func (b *Builder) refuse(r *reading) {
	if !matters(r.Class) && !r.statesSpeed() && !r.has(RESTRN) && !r.has(CATREA) && r.Class != unreadClass {
		return
	}
	mark := chart.Refused{Class: r.Class, File: r.File, Index: r.Index, Boxless: len(r.Geometry.Coords) == 0}
	if r.Class == unreadClass {
		mark.Class = chart.NoClass
	}
	for _, m := range r.problems {
		if m.Level != chart.Warning {
			mark.Code = m.Code
			break
		}
	}
	if !mark.Boxless {
		mark.Min, mark.Max = box(r.Geometry.Coords)
		// Over the antimeridian the box would be all but the feature's own place.
		mark.Boxless = int64(mark.Max.Lon)-int64(mark.Min.Lon) > halfCircle
	}
	b.set.Refused = append(b.set.Refused, mark)
}

// unreadClass stands for a class that was stated but could not be read: the
// object may be anything.
const unreadClass chart.Class = 65534

// keep stores a feature with its own copy of the geometry.
func (b *Builder) keep(f chart.Feature, o *Object) {
	f.Coords, f.Ends, f.DepthsM = b.coords.keep(f.Coords), b.ends.keep(f.Ends), b.depths.keep(f.DepthsM)
	f.Polygons, f.Border = b.ends.keep(f.Polygons), b.ends.keep(f.Border)
	b.warnTwin(&f, o)
	switch {
	case f.Class == chart.MCOVR:
		b.covered = true
	case f.Class == chart.MSDAT:
		b.datumArea = true
	case f.Datum == 0 && chart.Known(f.DepthMinM):
		b.undated = true
	}
	b.set.Features = append(b.set.Features, f)
	b.twins = append(b.twins, o.Twin)
}

// Set finishes the set: what it says about itself, and its messages. It is nil
// after a file error. The Builder must not be used any more.
func (b *Builder) Set() *chart.Set {
	if b.Log.Fatal() {
		return nil
	}
	b.applyHeaders()
	b.applyDataSets()
	b.setAuthority()
	b.warnDatum()
	b.set.Messages = b.Log.Messages()
	set := b.set // by itself: the Builder's working space is not kept with it
	return &set
}

func (b *Builder) applyHeaders() {
	s := &b.set
	for _, h := range b.headers {
		s.Title = cmp.Or(s.Title, h.Title)
		s.Source = cmp.Or(s.Source, h.Source)
		s.Licence = cmp.Or(s.Licence, h.Licence)
		s.Edition = cmp.Or(s.Edition, h.Edition)
		s.IssueDate = cmp.Or(s.IssueDate, h.IssueDate)
		s.Scale = max(s.Scale, h.Scale)
	}
	s.SoundingDatum = onlyOne(b.headers, func(h Header) int { return h.SoundingDatum })
}

// applyDataSets adds what the data sets say. A header's texts go first, because
// someone wrote them for this file; of numbers the data set's go first.
func (b *Builder) applyDataSets() {
	s := &b.set
	scale := 0
	for _, d := range b.described {
		s.Title = cmp.Or(s.Title, d.Name)
		s.Edition = cmp.Or(s.Edition, editionText(d))
		s.IssueDate = cmp.Or(s.IssueDate, isoDate(d.IssueDate))
		scale = max(scale, d.Scale)
	}
	s.Scale = cmp.Or(scale, s.Scale)
	if len(b.described) > 0 {
		sounding := func(d DataSet) int { return d.SoundingDatum }
		if d := onlyOne(b.described, sounding); d != 0 || differing(b.described, sounding) {
			s.SoundingDatum = max(d, 0) // one that could not be read is not known
		}
		s.HeightDatum = max(onlyOne(b.described, func(d DataSet) int { return d.HeightDatum }), 0)
	}
}

// onlyOne is the number that all items state which state one, 0 where none does
// or two differ.
func onlyOne[T any](items []T, number func(T) int) (only int) {
	for _, item := range items {
		switch n := number(item); {
		case n == 0 || n == only:
		case only == 0:
			only = n
		default:
			return 0
		}
	}
	return only
}

func differing[T any](items []T, number func(T) int) bool {
	for _, item := range items {
		if number(item) != 0 {
			return onlyOne(items, number) == 0
		}
	}
	return false
}

// editionText is edition and update, such as 32.0.
func editionText(d DataSet) string {
	if d.Edition == "" || d.Update == "" {
		return d.Edition
	}
	return d.Edition + "." + d.Update
}

// isoDate writes YYYYMMDD with hyphens; other texts stay as they are.
func isoDate(s string) string {
	if day, ok := calendarDay(s); ok && s != "" {
		return day.Format("2006-01-02")
	}
	return s
}

// setAuthority takes the least authority that a file claims; where none does,
// a set that looks like a chart is derived from one.
func (b *Builder) setAuthority() {
	claimed := false
	for _, h := range b.headers {
		if h.Authority == "" {
			continue
		}
		a := authorities[h.Authority]
		if !claimed || a < b.set.Authority {
			b.set.Authority = a
		}
		claimed = true
	}
	if !claimed && (b.covered || len(b.described) > 0) {
		b.set.Authority = chart.Derived
	}
}

var authorities = map[string]chart.Authority{
	"official": chart.Official, "derived": chart.Derived, "private": chart.Private,
}

// warnDatum says once where depths have no datum that a check can use.
func (b *Builder) warnDatum() {
	datum := b.set.SoundingDatum
	if !doubtfulDatum(datum) || b.datumArea {
		return
	}
	m := chart.Message{
		Level: chart.Warning, Code: "W-DATUM", Path: "layer.verticalDatum",
		Found:  "the sounding datum is unknown",
		Wanted: "a datum that depths are charted from, in DSID or verticalDatum",
	}
	switch {
	case datum != 0:
		m.Found = fmt.Sprintf("the sounding datum is %d, a mean level", datum)
	case b.coded && len(b.described) == 0:
		m.Found = "S-57 objects without DSID: datum and scale are unknown"
	}
	if b.undated || b.coded && len(b.described) == 0 {
		b.Log.Add(m)
	}
}
