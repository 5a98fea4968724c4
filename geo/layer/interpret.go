package layer

import (
	"fmt"
	"math"

	"keelroom/geo/chart"
)

// interpret gives the feature that an object stands for; after it r.failed
// tells whether the feature must be left out. The geometry is taken as checked.
func (r *reading) interpret() chart.Feature {
	f := chart.Feature{
		Class: r.Class, Geometry: r.Geometry,
		Index: r.Index, File: r.File, Key: r.Key,
		Name:      r.text("name", OBJNAM, PlainName, FeatureName),
		Info:      r.text("text", INFORM, Information),
		DepthMinM: chart.Unknown, DepthMaxM: chart.Unknown,
	}
	r.scale(&f)
	r.byClass(&f)
	r.rules(&f)
	r.checkPrim()
	if f.Class != chart.SOUNDG {
		f.DepthsM = nil
	}
	return f
}

func (r *reading) byClass(f *chart.Feature) {
	switch c := f.Class; {
	case c == chart.UNSARE: // its depth is unknown, whatever else it says
	case c == chart.DEPARE && f.Prim == chart.Line: // says nothing that an area does not
	case c.WaterArea():
		r.depthRange(f)
	case c == chart.DEPCNT:
		r.contour(f)
	case c == chart.SOUNDG:
		r.sounding(f)
	case c.Danger():
		r.danger(f)
	case c.Overhead():
		r.overhead(f)
	case c == chart.CRANES:
		r.crane(f)
	case c == chart.MORFAC:
		f.CatMor = r.code(CATMOR, maxCode)
	case c.Mark():
		r.mark(f)
	case c == chart.SBDARE:
		f.NatSur = r.codes(NATSUR)
	case c == chart.LIGHTS:
		r.light(f)
	case c == chart.FAIRWY, c == chart.RECTRC, c == chart.NAVLNE:
		r.axis(f)
	case c >= chart.MCOVR && c <= chart.MVDAT:
		r.meta(f)
	}
}

// scale reads SCAMIN. It only says when to draw, so one that cannot be read is
// no reason to lose the feature: it is drawn always.
func (r *reading) scale(f *chart.Feature) {
	r.known(SCAMIN, func(at *Attribute) {
		if v, ok := at.Value.integer(1, math.MaxInt32); ok {
			f.ScaMin = v
		}
	})
}

// depthRange reads a depth or dredged area. DRVAL1 absent is unknown depth,
// DRVAL2 absent is open.
func (r *reading) depthRange(f *chart.Feature) {
	f.DepthMinM, f.DepthMaxM = r.depth(DRVAL1), r.depth(DRVAL2)
	if f.DepthMinM > f.DepthMaxM {
		r.fail("E-RANGE", r.name(DRVAL1, "DRVAL1"), fmt.Sprintf("%g, which is deeper than DRVAL2, %g", f.DepthMinM, f.DepthMaxM),
			"the shoal end in DRVAL1, the deep end in DRVAL2")
	}
	r.depthQuality(f)
}

func (r *reading) contour(f *chart.Feature) {
	f.DepthMinM = r.depth(VALDCO)
	if !chart.Known(f.DepthMinM) && !r.failed {
		r.fail("E-DEPTH", r.name(VALDCO, "VALDCO"), "a contour without its depth", "VALDCO in metres")
	}
	r.depthQuality(f)
}

// The QUASOU codes that make a depth doubtful (layer profile section 4): depth
// unknown, doubtful, unreliable, reported and not surveyed, reported and not
// confirmed, not regularly maintained.
var doubtful = chart.CodesOf(2, 3, 4, 8, 9, 11)

func (r *reading) depthQuality(f *chart.Feature) {
	f.Datum = r.datum()
	f.Doubtful = r.codes(QUASOU)&doubtful != 0 && chart.Known(f.DepthMinM)
	switch f.Datum {
	case meanSea, meanTide, meanHigh:
		r.warn("W-DATUM", r.name(VERDAT, "VERDAT"), fmt.Sprint(f.Datum), "a datum that depths are charted from, such as 12, mean lower low water")
	}
}

// Datums that are no sounding datum but mean levels: depths from them never
// pass a check (layer profile section 4.6).
const (
	meanSea  = 3
	meanTide = 19
	meanHigh = 26
)

func doubtfulDatum(d int) bool { return d == 0 || d == meanSea || d == meanTide || d == meanHigh }

// sounding gives each vertex its depth: DEPTH, else VALSOU, else the third
// coordinate, positive down. DepthMinM becomes the shoalest.
func (r *reading) sounding(f *chart.Feature) {
	stated, other := r.depth(SoundingDepth), r.depth(VALSOU)
	if !chart.Known(stated) {
		stated, other = other, chart.Unknown
	}
	if differ(stated, other) {
		r.fail("E-CONFLICT", r.name(SoundingDepth, "DEPTH"), fmt.Sprintf("%g, and VALSOU is %g", stated, other), "one depth")
	}
	depths := make([]float64, len(f.Coords))
	for i := range depths {
		depths[i] = r.vertexDepth(i, stated)
		if r.failed {
			return
		}
		if !(f.DepthMinM <= depths[i]) { // also where DepthMinM is unknown
			f.DepthMinM = depths[i]
		}
	}
	f.DepthsM = depths
	r.depthQuality(f)
}

func (r *reading) vertexDepth(i int, stated float64) float64 {
	z := chart.Unknown
	if i < len(r.Geometry.DepthsM) {
		z = r.Geometry.DepthsM[i]
	}
	switch {
	case differ(stated, z):
		r.fail("E-CONFLICT", "", fmt.Sprintf("a third coordinate of %g, and the depth is stated as %g", z, stated), "one depth, metres positive down")
	case chart.Known(stated):
		return stated
	case !chart.Known(z):
		r.fail("E-DEPTH", "", "a sounding without its depth", "DEPTH, VALSOU or a third coordinate, metres positive down")
	case z < -20 || z > 12000:
		r.fail("E-NUM", "", fmt.Sprintf("a third coordinate of %g", z), "metres from -20 to 12000, positive down")
	}
	return z
}

func differ(a, b float64) bool { return math.Abs(a-b) > agree }

// danger reads a rock, wreck or obstruction.
func (r *reading) danger(f *chart.Feature) {
	f.DepthMinM = r.depth(VALSOU)
	f.Danger = &chart.Danger{
		WatLev: r.code(WATLEV, maxCode), CatObs: r.code(CATOBS, maxCode),
		CatWrk: r.code(CATWRK, maxCode), ExpSou: r.code(EXPSOU, maxCode),
	}
	r.depthQuality(f)
}

// The CATBRG codes of bridges that open: opening, swing, lifting, bascule,
// draw, transporter (S-57 App. A, attribute 9).
var opening = chart.CodesOf(2, 3, 4, 5, 7, 8)

// fixedBridge is the CATBRG code of a bridge that does not open.
var fixedBridge = chart.CodesOf(1)

func (r *reading) overhead(f *chart.Feature) {
	category := r.codes(CATBRG)
	opens, fixed := category&opening != 0 || r.has(OpeningCategory), category&fixedBridge != 0
	r.known(OpeningBridge, func(at *Attribute) {
		opens, fixed = opens || at.Value.truth(true), fixed || at.Value.truth(false)
	})
	f.Overhead = &chart.Overhead{
		VerClrM: r.clearance(VERCLR), VerCclM: r.clearance(VERCCL),
		VerCsaM: r.clearance(VERCSA), HorClrM: r.clearance(HORCLR),
		Opening: opens, Fixed: fixed && !opens, HeightDatum: r.datum(),
	}
}

// crane reads a crane, which is something to pass under where it says how high it
// is; it stands in the way in any case.
func (r *reading) crane(f *chart.Feature) {
	if r.has(VERCLR) {
		r.overhead(f)
	}
}

func (r *reading) mark(f *chart.Feature) {
	f.Mark = &chart.Mark{
		CatLam: r.code(CATLAM, maxCode), CatCam: r.code(CATCAM, maxCode),
		Colours: r.list(COLOUR), Shape: max(r.code(BOYSHP, maxCode), r.code(BCNSHP, maxCode)),
	}
}

// light reads the character of a light. It only helps to find one's way by eye, so
// what cannot be read is left out and refuses nothing.
func (r *reading) light(f *chart.Feature) {
	f.Light = &chart.Light{}
	r.known(LITCHR, func(at *Attribute) { f.Light.Character, _ = at.Value.integer(1, maxCode) })
	r.known(SIGGRP, func(at *Attribute) { f.Light.Group = at.Value.text() })
	r.known(SIGPER, func(at *Attribute) {
		if v, ok := at.Value.number(); ok && v > 0 && v < 1000 {
			f.Light.PeriodS = v
		}
	})
	r.known(COLOUR, func(at *Attribute) { f.Light.Colours, _ = at.Value.codes(nil) })
}

// axis reads which way a fairway or track runs. It only helps to see which side of a
// channel a mark stands on, so one that cannot be read refuses nothing.
func (r *reading) axis(f *chart.Feature) {
	r.known(ORIENT, func(at *Attribute) {
		if v, ok := at.Value.number(); ok && v >= 0 && v <= 360 {
			f.Meta = &chart.Meta{OrientDeg: v}
		}
	})
}

func (r *reading) meta(f *chart.Feature) {
	f.Meta = &chart.Meta{OrientDeg: chart.Unknown}
	switch f.Class {
	case chart.MCOVR:
		f.Meta.CatCov = r.code(CATCOV, maxCode)
	case chart.MQUAL:
		f.Meta.CatZoc = r.worstQuality()
	case chart.MSDAT, chart.MVDAT:
		f.Meta.VerDat = r.datum()
	case chart.MNSYS:
		f.Meta.MarSys = r.code(MARSYS, maxCode)
		f.Meta.OrientDeg = r.number(ORIENT, 0, 360, "degrees")
	}
}

// worstQuality is CATZOC, the worst where S-101 gives several with dates.
func (r *reading) worstQuality() (zoc int) {
	for _, code := range r.list(CATZOC) {
		zoc = max(zoc, code)
	}
	return zoc
}

// checkPrim refuses a kind of geometry that says nothing for the class.
func (r *reading) checkPrim() {
	allowed, limited := primsOf[r.Class]
	if limited && !allowed.has(r.Geometry.Prim) && !r.failed {
		r.fail("E-GEOM", "", fmt.Sprintf("%s drawn as %s", Acronym(r.Class), r.Geometry.Prim), allowed.String())
	}
}
