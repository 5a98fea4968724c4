package hazards

import (
	"cmp"
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// Place is what the charts say of a place, and the tide of its water at a time.
// Metres; nil is not known. It judges nothing: that is what checks are for.
type Place struct {
	// Lines says it in plain words, the most important first.
	Lines []string
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
	c := newChecker(g, p)
	c.memory = s.memory
	if p.Tide != nil {
		if c.tide, err = c.memory.tideOf(p.Tide); err != nil {
			return Place{}, err
		}
	}
	c.heights = heights{tide: c.tide, marginM: p.Margins.TideM}
	w := placeWords{checker: c, at: t, met: c.query.At(at, chart.Reach{HalfM: nearM, CloseM: nearM})}
	w.depth()
	w.tideThere()
	w.things()
	w.marks(at)
	w.survey()
	return w.out, nil
}

// placeWords is a Place being put together.
type placeWords struct {
	*checker
	at   time.Time
	met  chart.Met
	area *chart.Feature // whose DRVAL1 decides
	out  Place
}

func (w *placeWords) say(format string, args ...any) {
	w.out.Lines = append(w.out.Lines, fmt.Sprintf(format, args...))
}

// depth tells what the areas that hold the place say of its depth.
func (w *placeWords) depth() {
	unknown, refused := "", false
	for i := range w.met.Hits {
		h := &w.met.Hits[i]
		switch {
		case h.RefusedFeature() && len(h.Near) > 0:
			defer w.say("%s%s (%s): %s", unread(h.Feature).Title, awayWords(h.LeastDistanceM()), h.Info, notKnownWithout(h.Meant()))
			refused = refused || h.LeastDistanceM() < 1
		case len(h.Inside) == 0 && h.UnknownWater() && len(h.Near) > 0:
			defer w.say("Water of unknown depth lies %.0f m away.", math.Ceil(h.LeastDistanceM()))
		case len(h.Inside) == 0:
		case h.UnknownWater():
			unknown = whyUnknown(h.Feature)
		case h.Class.WaterArea() && w.chart.Overruled(h.Feature) && len(w.met.Outside)+len(w.met.Untiled) > 0:
			low := h.DepthMinM // where no chart has a depth, a private layer is no depth to go by
			var high *float64
			if chart.Known(h.DepthMaxM) {
				high = ptr(h.DepthMaxM)
			}
			defer w.say("%s has %s below %s there.", layerName(h.Set), depthWords(&low, high), datumName(h.Datum))
		case h.Class.WaterArea():
			w.shoaler(h.Feature)
		case h.Class == chart.LNDARE:
			w.out.Land = true
			w.say("Land%s.", called(h.Feature))
		}
	}
	switch {
	case refused && unknown == "":
		w.area, w.out.DepthMinM, w.out.DepthMaxM = nil, nil, nil
	case unknown != "":
		w.area, w.out.DepthMinM, w.out.DepthMaxM = nil, nil, nil
		w.say("The depth is not known: %s.", unknown)
	case w.area != nil && w.chart.Overruled(w.area):
		w.say("%s has %s below %s here, less than the chart.", layerName(w.area.Set), depthWords(w.out.DepthMinM, w.out.DepthMaxM), datumName(w.area.Datum))
	case w.area != nil:
		if w.area.Set != nil && w.area.Set.Cancelled != "" {
			w.say("%s.", layerName(w.area.Set))
		}
		w.say("Charted depth %s below %s%s.", depthWords(w.out.DepthMinM, w.out.DepthMaxM), datumName(w.area.Datum), dredged(w.area))
	case len(w.met.Outside) > 0:
		w.say("No chart reaches here.")
	case len(w.out.Lines) == 0:
		w.say("No depth is charted here.")
	}
}

// layerName names a layer that is no chart in force.
func layerName(s *chart.Set) string {
	switch {
	case s == nil:
		return "A private layer"
	case s.Cancelled != "":
		return fmt.Sprintf("%q, which its producer cancelled and is no chart in force", s.Title)
	}
	return fmt.Sprintf("%q, which is no chart,", s.Title)
}

// shoaler takes an area's bounds in.
func (w *placeWords) shoaler(f *chart.Feature) {
	if w.area == nil || f.DepthMinM < w.area.DepthMinM {
		w.area, w.out.DepthMinM = f, ptr(f.DepthMinM)
	}
	if chart.Known(f.DepthMaxM) && (w.out.DepthMaxM == nil || f.DepthMaxM < *w.out.DepthMaxM) {
		w.out.DepthMaxM = ptr(f.DepthMaxM)
	}
}

func depthWords(low, high *float64) string {
	switch {
	case high == nil:
		return fmt.Sprintf("%.1f m or more", down(*low))
	case *low == *high:
		return fmt.Sprintf("%.1f m", down(*low))
	}
	return fmt.Sprintf("%.1f to %.1f m", down(*low), down(*high))
}

func dredged(f *chart.Feature) string {
	if f.Class == chart.DRGARE {
		return ", dredged"
	}
	return ""
}

// tideThere tells the height of tide, and the water it leaves.
func (w *placeWords) tideThere() {
	if w.tide == nil {
		w.say("No tide is given, so the water at an hour is not known.")
		return
	}
	h, ok := w.tide.HeightM(w.at)
	if !ok {
		w.say("The height of tide is not known at this hour.")
		return
	}
	w.out.TideM = ptr(h)
	w.say("Height of tide %s m above %s at %s.", tenths(h), datumName(w.plan.Tide.DatumOf()), w.at.In(w.zone()).Format("15:04 MST"))
	if w.area == nil {
		return
	}
	offset, comparable := w.offset(w.area)
	least, margin, ok := w.heights.least(w.at.Add(-underWayPad), w.at.Add(underWayPad))
	switch {
	case !comparable:
		w.say("Depths and heights of tide are above different levels, or it is not known which: the water is not known.")
	case ok:
		water := w.area.DepthMinM + offset + least - margin
		w.out.WaterM = ptr(water)
		if water <= 0 {
			w.say("It may be dry: the bottom is %s m above the water, margin taken off.", tenths(-down(water)))
		} else {
			w.say("At least %.1f m of water, margin taken off.", down(water))
		}
	}
}

// things tells of what lies there or within nearM: dangers, soundings, what is
// in the way, rules and clearances.
func (w *placeWords) things() {
	for i := range w.met.Hits {
		h := &w.met.Hits[i]
		if len(h.Near) == 0 {
			continue
		}
		away := awayWords(h.LeastDistanceM())
		switch {
		case h.Class == chart.SOUNDG:
			for _, sd := range h.Soundings {
				w.say("A sounding of %.1f m below %s%s.", down(sd.DepthM), datumName(h.Datum), awayWords(sd.Wide.DistM))
			}
		case h.Class.Danger():
			w.say("%s%s%s.%s", capital(solidName(h.Class))+called(h.Feature), dangerDepth(h.Feature), away, told(h.Info))
		case h.Class.NoGo(), h.Class.Shoreline(), h.Class == chart.LNDARE && len(h.Inside) == 0:
			w.say("%s%s.", capital(solidName(h.Class))+called(h.Feature), away)
		case h.Class.CloseBy() && !(h.Class.Mark() && h.Prim == chart.Point): // marks has those
			w.say("%s%s.%s", capital(closeName(h.Feature))+called(h.Feature), away, told(h.Info))
		case troubledWater(h.Class):
			w.say("%s%s%s.%s", troubledWords[h.Class][0], called(h.Feature), away, told(h.Info))
		case waterWords[h.Class][0] != "" && (h.Prim != chart.Area || len(h.Inside) > 0):
			w.say("%s%s%s.%s", waterWords[h.Class][0], called(h.Feature), away, told(h.Info))
		}
		if h.Overhead != nil {
			w.overhead(h.Feature, away)
		}
		if h.Rules != nil && len(h.Inside) > 0 {
			w.rules(h.Feature)
		}
	}
}

func (w *placeWords) overhead(f *chart.Feature, away string) {
	o := f.Overhead
	var charted []string
	for _, c := range []struct {
		m    float64
		what string
	}{{o.VerClrM, "clearance"}, {o.VerCsaM, "safe clearance"}, {o.VerCclM, "clearance when closed"}} {
		if chart.Known(c.m) {
			charted = append(charted, fmt.Sprintf("%s %.1f m", c.what, down(c.m)))
		}
	}
	text := "clearance not stated"
	if len(charted) > 0 {
		text = joinWords(charted) + " above " + datumName(o.HeightDatum)
	}
	w.say("Overhead%s: %s%s.", called(f), text, away)
}

// rules tells what holds in an area. Codes: IHO S-57 App. A, RESTRN, CATREA.
func (w *placeWords) rules(f *chart.Feature) {
	r := f.Rules
	var words []string
	if r.SpeedZone {
		if kn, ok := r.Limit(w.plan.Choices.VesselClasses); ok {
			words = append(words, fmt.Sprintf("speed limit %.1f kn", kn))
		} else {
			words = append(words, "a speed limit that is not stated")
		}
	}
	words = append(words, ruleWords(r)...)
	season := ""
	if !r.Season.Holds(w.at.In(w.zone())) {
		season = " Not in force on this day."
	}
	if text := joinWords(words); text != "" || f.Name != "" || f.Info != "" {
		w.say("%s: %s.%s%s", named(f, "An area"), cmp.Or(text, "no rule stated"), season, told(f.Info))
	}
}

// marks tells of buoys and beacons close by.
func (w *placeWords) marks(at orb.Point) {
	for _, f := range w.query.MarksNear(chart.NewPiece(at, at), nearM) {
		if f.UnreadMark() {
			w.say("A mark that could not be read (%s).", f.Info)
			continue
		}
		w.say("%s%s.%s", capital(closeName(f)), called(f), told(f.Info))
	}
}

// survey tells how well the water is surveyed.
func (w *placeWords) survey() {
	zones := w.zocSpans(&w.met)
	if zoc := worstZoc(zones, 0, 0); zoc != 0 && w.area != nil {
		w.say("Survey quality (CATZOC) %s: the charted depth may be out by %.1f m.", zocName(zoc), math.Ceil(DepthAccuracyM(zoc, w.area.DepthMinM)*10-1e-9)/10)
	}
}

func dangerDepth(f *chart.Feature) string {
	if !chart.Known(f.DepthMinM) {
		return ", depth not stated"
	}
	if f.DepthMinM < 0 {
		return fmt.Sprintf(", dries %s m above %s", tenths(-down(f.DepthMinM)), datumName(f.Datum))
	}
	return fmt.Sprintf(", depth %.1f m below %s", down(f.DepthMinM), datumName(f.Datum))
}

func awayWords(metres float64) string {
	if !(metres >= 1) {
		return ""
	}
	return fmt.Sprintf(", %.0f m away", math.Floor(metres))
}

// called is a feature's name in quotes, after a blank.
func called(f *chart.Feature) string { return named(f, "") }

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
