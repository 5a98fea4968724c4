package hazards

import (
	"math"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// Place is what the charts say of a place, and the tide of its water at a time.
// Metres; nil is not known. It judges nothing: that is what checks are for.
type Place struct {
	// Found is what there is to say, the most important first.
	Found []facts.Facts
	// Land says that a chart has land there: no route can lead to it.
	Land bool
	// DepthMinM and DepthMaxM bound the charted depth there: DRVAL1 and DRVAL2 of
	// the areas that hold the place, of several the shoaler each.
	DepthMinM, DepthMaxM *float64
	// TideM is the height of tide at the time, above the tide's own datum.
	TideM *float64
	// WaterM is the least depth of water within 15 minutes: DepthMinM and the
	// least height, less the margin. Soundings and dangers are not in it.
	WaterM *float64
}

// nearM is how far about a place points and lines are told of, metres.
const nearM = 30

// Place tells what lies at a place at a time, for a plan, which need not be
// complete and may be nil: it gives the tide, its margin and the answers about
// datums, the zone of clock times, and its own zones and hazards. An error is bad
// input.
func (s *Session) Place(p *plan.Plan, at orb.Point, t time.Time) (Place, error) {
	if p == nil {
		p = plan.New()
	}
	g, err := s.groundFor(p)
	if err != nil {
		return Place{}, err
	}
	c := newChecker(g, newMemory(), p)
	c.memory = s.memory
	if p.Tide != nil {
		if c.tide, err = c.memory.tideOf(p.Tide); err != nil {
			return Place{}, err
		}
	}
	c.heights = heights{tide: c.tide, marginM: p.Margins.TideM}
	w := placeLook{checker: c, at: t, met: c.query.At(at, chart.Reach{HalfM: nearM, CloseM: nearM})}
	w.depth()
	w.tideThere()
	w.things()
	w.marks(at)
	w.survey()
	return w.out, nil
}

// placeLook is a Place being put together.
type placeLook struct {
	*checker
	at   time.Time
	met  chart.Met
	area *chart.Feature // whose DRVAL1 decides
	out  Place
}

func (w *placeLook) tell(f facts.Facts) { w.out.Found = append(w.out.Found, f) }

// depth tells what the areas that hold the place say of its depth.
func (w *placeLook) depth() {
	var unknown facts.Unknown
	refused := false
	for i := range w.met.Hits {
		h := &w.met.Hits[i]
		switch {
		case h.RefusedFeature() && len(h.Near) > 0:
			defer w.tell(facts.There{What: facts.UnreadThere, Thing: facts.Thing{Class: h.Meant()}, Metres: metresAway(h.LeastDistanceM()), Info: h.Info})
			refused = refused || h.LeastDistanceM() < 1
		case len(h.Inside) == 0 && h.UnknownWater() && len(h.Near) > 0:
			defer w.tell(facts.There{What: facts.UnknownNear, Metres: int(math.Ceil(h.LeastDistanceM()))})
		case len(h.Inside) == 0:
		case h.UnknownWater():
			unknown = whyUnknown(h.Feature)
		case h.Class.WaterArea() && w.chart.Overruled(h.Feature) && len(w.met.Outside)+len(w.met.Untiled) > 0:
			// Where no chart has a depth, a private layer is no depth to go by.
			defer w.tell(layerDepth(h.Feature, shown(&h.DepthMinM), facts.FigureOf(down(h.DepthMaxM)), false))
		case h.Class.WaterArea():
			w.shoaler(h.Feature)
		case h.Class == chart.LNDARE:
			w.out.Land = true
			w.tell(facts.There{What: facts.LandThere, Thing: facts.Thing{Class: h.Class, Name: h.Name}})
		}
	}
	w.depthThere(unknown, refused)
}

// depthThere tells the depth, or that there is none.
func (w *placeLook) depthThere(unknown facts.Unknown, refused bool) {
	known := unknown == (facts.Unknown{})
	if !known || refused {
		w.area, w.out.DepthMinM, w.out.DepthMaxM = nil, nil, nil
	}
	switch {
	case !known:
		w.tell(facts.There{What: facts.DepthUnknown, Why: unknown})
	case refused:
	case w.area != nil && w.chart.Overruled(w.area):
		w.tell(layerDepth(w.area, shown(w.out.DepthMinM), shown(w.out.DepthMaxM), true))
	case w.area != nil:
		if w.area.Set != nil && w.area.Set.Cancelled != "" {
			w.tell(ofLayer(facts.There{What: facts.LayerThere}, w.area.Set))
		}
		w.tell(facts.There{What: facts.DepthThere, Low: shown(w.out.DepthMinM), High: shown(w.out.DepthMaxM), Datum: w.area.Datum, Dredged: w.area.Class == chart.DRGARE})
	case len(w.met.Outside) > 0:
		w.tell(facts.There{What: facts.NoChartThere})
	case len(w.out.Found) == 0:
		w.tell(facts.There{What: facts.NoDepthThere})
	}
}

// shown is a depth in tenths, rounded down.
func shown(m *float64) facts.Figure {
	if m == nil {
		return facts.Figure{}
	}
	return facts.FigureOf(down(*m))
}

// layerDepth is the depth of a layer that is no chart in force.
func layerDepth(f *chart.Feature, low, high facts.Figure, less bool) facts.There {
	return ofLayer(facts.There{What: facts.LayerDepth, Low: low, High: high, Datum: f.Datum, Less: less}, f.Set)
}

// ofLayer adds the name of a layer that is no chart in force.
func ofLayer(t facts.There, s *chart.Set) facts.There {
	if s == nil {
		t.Private = true
		return t
	}
	t.Layer, t.Cancelled = s.Title, s.Cancelled != ""
	return t
}

// shoaler takes an area's bounds in.
func (w *placeLook) shoaler(f *chart.Feature) {
	if w.area == nil || f.DepthMinM < w.area.DepthMinM {
		w.area, w.out.DepthMinM = f, ptr(f.DepthMinM)
	}
	if chart.Known(f.DepthMaxM) && (w.out.DepthMaxM == nil || f.DepthMaxM < *w.out.DepthMaxM) {
		w.out.DepthMaxM = ptr(f.DepthMaxM)
	}
}

// tideThere tells the height of tide, and the water it leaves.
func (w *placeLook) tideThere() {
	if w.tide == nil {
		w.tell(facts.There{What: facts.NoTideThere})
		return
	}
	h, ok := w.tide.HeightM(w.at)
	if !ok {
		w.tell(facts.There{What: facts.NoHeightThere})
		return
	}
	w.out.TideM = ptr(h)
	w.tell(facts.There{What: facts.HeightThere, Value: math.Round(h*10) / 10, Datum: w.plan.Tide.DatumOf(), When: facts.At(w.at)})
	if w.area == nil {
		return
	}
	offset, comparable := w.levels().offset(w.area)
	least, margin, ok := w.heights.least(w.at.Add(-underWayPad), w.at.Add(underWayPad))
	switch {
	case !comparable:
		w.tell(facts.There{What: facts.NoLevelThere})
	case ok:
		water := w.area.DepthMinM + offset + least - margin
		w.out.WaterM = ptr(water)
		if water <= 0 {
			w.tell(facts.There{What: facts.DryThere, Value: -down(water)})
		} else {
			w.tell(facts.There{What: facts.WaterThere, Value: down(water)})
		}
	}
}

// things tells of what lies there or within nearM: dangers, soundings, what is
// in the way, rules and clearances.
func (w *placeLook) things() {
	for i := range w.met.Hits {
		h := &w.met.Hits[i]
		if len(h.Near) == 0 {
			continue
		}
		what := facts.There{Thing: thingNamed(h.Feature), Metres: metresAway(h.LeastDistanceM()), Info: h.Info}
		switch {
		case h.Class == chart.SOUNDG:
			for _, sd := range h.Soundings {
				w.tell(facts.There{What: facts.SoundingThere, Value: down(sd.DepthM), Datum: h.Datum, Metres: metresAway(sd.Wide.DistM)})
			}
		case h.Class.Danger():
			what.What, what.Low, what.Datum = facts.DangerThere, facts.FigureOf(down(h.DepthMinM)), h.Datum
			w.tell(what)
		case h.Class.NoGo(), h.Class.Shoreline(), h.Class == chart.LNDARE && len(h.Inside) == 0:
			what.What, what.Info = facts.ThingThere, ""
			w.tell(what)
		case h.Class.CloseBy() && !(h.Class.Mark() && h.Prim == chart.Point): // marks has those
			what.What = facts.ThingThere
			w.tell(what)
		case troubledWater(h.Class):
			what.What, what.Water = facts.WatersThere, troubledCodes[h.Class]
			w.tell(what)
		case waterCodes[h.Class] != "" && (h.Prim != chart.Area || len(h.Inside) > 0):
			what.What, what.Water = facts.WatersThere, waterCodes[h.Class]
			w.tell(what)
		}
		if h.Overhead != nil {
			w.overhead(h.Feature, metresAway(h.LeastDistanceM()))
		}
		if h.Rules != nil && len(h.Inside) > 0 {
			w.rules(h.Feature)
		}
	}
}

func (w *placeLook) overhead(f *chart.Feature, metres int) {
	o := f.Overhead
	w.tell(facts.OverheadClearances{Name: f.Name, Metres: metres, Open: facts.FigureOf(down(o.VerClrM)), Safe: facts.FigureOf(down(o.VerCsaM)),
		Closed: facts.FigureOf(down(o.VerCclM)), Datum: o.HeightDatum})
}

// rules tells what holds in an area. Codes: IHO S-57 App. A, RESTRN, CATREA.
func (w *placeLook) rules(f *chart.Feature) {
	r := f.Rules
	what := facts.AreaRules{Name: f.Name, SpeedZone: r.SpeedZone, Restrn: r.Restrn &^ speedRestrictions, CatRea: r.CatRea &^ speedCategories,
		OffSeason: !r.Season.Holds(w.at.In(w.zone())), Info: f.Info}
	if kn, ok := r.Limit(w.plan.Choices.VesselClasses); ok && r.SpeedZone {
		what.Limit = facts.Figure{Value: kn, Known: true}
	}
	if r.SpeedZone || what.Restrn != 0 || what.CatRea != 0 || f.Name != "" || f.Info != "" {
		w.tell(what)
	}
}

// marks tells of buoys and beacons close by.
func (w *placeLook) marks(at orb.Point) {
	for _, f := range w.query.MarksNear(chart.NewPiece(at, at), nearM) {
		if f.UnreadMark() {
			w.tell(facts.There{What: facts.UnreadMarkThere, Info: f.Info})
			continue
		}
		w.tell(facts.There{What: facts.ThingThere, Thing: thingNamed(f), Info: f.Info})
	}
}

// survey tells how well the water is surveyed.
func (w *placeLook) survey() {
	zones := w.zocSpans(&w.met)
	if zoc := worstZoc(zones, 0, 0); zoc != 0 && w.area != nil {
		w.tell(facts.There{What: facts.SurveyThere, CatZoc: zoc, Value: math.Ceil(DepthAccuracyM(zoc, w.area.DepthMinM)*10-1e-9) / 10})
	}
}

// metresAway is how many whole metres off a thing is; 0: here.
func metresAway(metres float64) int {
	if !(metres >= 1) {
		return 0
	}
	return int(math.Floor(metres))
}
