package layer

import (
	"fmt"
	"math"

	"keelroom/geo/chart"
)

// featureMaker makes the feature of the chart that an object stands for.
type featureMaker struct{ r *reading }

// feature gives the feature that an object stands for; after it r.failed
// tells whether the feature must be left out. The geometry is taken as checked.
func (m featureMaker) feature() chart.Feature {
	f := chart.Feature{
		Class: m.r.Class, Geometry: m.r.Geometry,
		Index: m.r.Index, File: m.r.File, Key: m.r.Key,
		Name:      m.r.text("name", OBJNAM, PlainName, FeatureName),
		Info:      m.r.text("text", INFORM, Information),
		DepthMinM: chart.Unknown, DepthMaxM: chart.Unknown,
	}
	m.scale(&f)
	m.byClass(&f)
	ruleReader{m.r}.rules(&f)
	m.checkPrim()
	if f.Class != chart.SOUNDG {
		f.DepthsM = nil
	}
	return f
}

func (m featureMaker) byClass(f *chart.Feature) {
	m.seaBed(f)
	switch c := f.Class; {
	case c == chart.UNSARE: // its depth is unknown, whatever else it says
	case c == chart.DEPARE && f.Prim == chart.Line: // says nothing that an area does not
	case c.WaterArea():
		m.depthRange(f)
	case c == chart.DEPCNT:
		m.contour(f)
	case c == chart.SOUNDG:
		m.sounding(f)
	case c.Danger():
		m.danger(f)
	case c.Overhead():
		m.overhead(f)
	case c == chart.CRANES:
		m.crane(f)
	case c == chart.MORFAC:
		f.CatMor = m.r.code(CATMOR, maxCode)
	case c.Mark():
		m.mark(f)
	case c == chart.LIGHTS:
		m.light(f)
	case c == chart.FAIRWY, c == chart.RECTRC, c == chart.NAVLNE:
		m.axis(f)
	case c >= chart.MCOVR && c <= chart.MVDAT:
		m.meta(f)
	}
}

// scale reads SCAMIN. It only says when to draw, so one that cannot be read is
// no reason to lose the feature: it is drawn always.
func (m featureMaker) scale(f *chart.Feature) {
	m.r.known(SCAMIN, func(at *Attribute) {
		if v, ok := at.Value.integer(1, math.MaxInt32); ok {
			f.ScaMin = v
		}
	})
}

// seaBed reads what the ground is made of. Of a sounding or a danger one that cannot be
// read is no reason to lose the feature: it says nothing of the ground then.
func (m featureMaker) seaBed(f *chart.Feature) {
	switch c := f.Class; {
	case c == chart.SBDARE:
		f.NatSur = m.r.codes(NATSUR)
	case c == chart.SOUNDG || c.Danger():
		m.r.known(NATSUR, func(at *Attribute) {
			if codes, ok := at.Value.codes(nil); ok {
				f.NatSur = chart.CodesOf(codes...)
			}
		})
	}
}

// depthRange reads a depth or dredged area. DRVAL1 absent is unknown depth,
// DRVAL2 absent is open.
func (m featureMaker) depthRange(f *chart.Feature) {
	f.DepthMinM, f.DepthMaxM = m.r.depth(DRVAL1), m.r.depth(DRVAL2)
	if f.DepthMinM > f.DepthMaxM {
		m.r.fail("E-RANGE", m.r.name(DRVAL1, "DRVAL1"), fmt.Sprintf("%g, which is deeper than DRVAL2, %g", f.DepthMinM, f.DepthMaxM),
			"the shoal end in DRVAL1, the deep end in DRVAL2")
	}
	m.depthQuality(f)
}

func (m featureMaker) contour(f *chart.Feature) {
	f.DepthMinM = m.r.depth(VALDCO)
	if !chart.Known(f.DepthMinM) && !m.r.failed {
		m.r.fail("E-DEPTH", m.r.name(VALDCO, "VALDCO"), "a contour without its depth", "VALDCO in metres")
	}
	m.depthQuality(f)
}

// The QUASOU codes that make a depth doubtful (layer profile section 4): depth
// unknown, doubtful, unreliable, reported and not surveyed, reported and not
// confirmed, not regularly maintained.
var doubtful = chart.CodesOf(2, 3, 4, 8, 9, 11)

func (m featureMaker) depthQuality(f *chart.Feature) {
	f.Datum = m.r.datum()
	f.Doubtful = m.r.codes(QUASOU)&doubtful != 0 && chart.Known(f.DepthMinM)
	switch f.Datum {
	case meanSea, meanTide, meanHigh:
		m.r.warn("W-DATUM", m.r.name(VERDAT, "VERDAT"), fmt.Sprint(f.Datum), "a datum that depths are charted from, such as 12, mean lower low water")
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
func (m featureMaker) sounding(f *chart.Feature) {
	stated, other := m.r.depth(SoundingDepth), m.r.depth(VALSOU)
	if !chart.Known(stated) {
		stated, other = other, chart.Unknown
	}
	if differ(stated, other) {
		m.r.fail("E-CONFLICT", m.r.name(SoundingDepth, "DEPTH"), fmt.Sprintf("%g, and VALSOU is %g", stated, other), "one depth")
	}
	depths := make([]float64, len(f.Coords))
	for i := range depths {
		depths[i] = m.vertexDepth(i, stated)
		if m.r.failed {
			return
		}
		if !(f.DepthMinM <= depths[i]) { // also where DepthMinM is unknown
			f.DepthMinM = depths[i]
		}
	}
	f.DepthsM = depths
	m.depthQuality(f)
}

func (m featureMaker) vertexDepth(i int, stated float64) float64 {
	z := chart.Unknown
	if i < len(m.r.Geometry.DepthsM) {
		z = m.r.Geometry.DepthsM[i]
	}
	switch {
	case differ(stated, z):
		m.r.fail("E-CONFLICT", "", fmt.Sprintf("a third coordinate of %g, and the depth is stated as %g", z, stated), "one depth, metres positive down")
	case chart.Known(stated):
		return stated
	case !chart.Known(z):
		m.r.fail("E-DEPTH", "", "a sounding without its depth", "DEPTH, VALSOU or a third coordinate, metres positive down")
	case z < -20 || z > 12000:
		m.r.fail("E-NUM", "", fmt.Sprintf("a third coordinate of %g", z), "metres from -20 to 12000, positive down")
	}
	return z
}

func differ(a, b float64) bool { return math.Abs(a-b) > agree }

// danger reads a rock, wreck or obstruction.
func (m featureMaker) danger(f *chart.Feature) {
	f.DepthMinM = m.r.depth(VALSOU)
	f.Danger = &chart.Danger{
		WatLev: m.r.code(WATLEV, maxCode), CatObs: m.r.code(CATOBS, maxCode),
		CatWrk: m.r.code(CATWRK, maxCode), ExpSou: m.r.code(EXPSOU, maxCode),
	}
	m.depthQuality(f)
}

// The CATBRG codes of bridges that open: opening, swing, lifting, bascule,
// draw, transporter (S-57 App. A, attribute 9).
var opening = chart.CodesOf(2, 3, 4, 5, 7, 8)

// fixedBridge is the CATBRG code of a bridge that does not open.
var fixedBridge = chart.CodesOf(1)

func (m featureMaker) overhead(f *chart.Feature) {
	category := m.r.codes(CATBRG)
	opens, fixed := category&opening != 0 || m.r.has(OpeningCategory), category&fixedBridge != 0
	m.r.known(OpeningBridge, func(at *Attribute) {
		opens, fixed = opens || at.Value.truth(true), fixed || at.Value.truth(false)
	})
	f.Overhead = &chart.Overhead{
		VerClrM: m.r.clearance(VERCLR), VerCclM: m.r.clearance(VERCCL),
		VerCsaM: m.r.clearance(VERCSA), HorClrM: m.r.clearance(HORCLR),
		Opening: opens, Fixed: fixed && !opens, HeightDatum: m.r.datum(),
	}
}

// crane reads a crane, which is something to pass under where it says how high it
// is; it stands in the way in any case.
func (m featureMaker) crane(f *chart.Feature) {
	if m.r.has(VERCLR) {
		m.overhead(f)
	}
}

func (m featureMaker) mark(f *chart.Feature) {
	f.Mark = &chart.Mark{
		CatLam: m.r.code(CATLAM, maxCode), CatCam: m.r.code(CATCAM, maxCode),
		Colours: m.r.list(COLOUR), Shape: max(m.r.code(BOYSHP, maxCode), m.r.code(BCNSHP, maxCode)),
	}
}

// light reads the character of a light. It only helps to find one's way by eye, so
// what cannot be read is left out and refuses nothing.
func (m featureMaker) light(f *chart.Feature) {
	f.Light = &chart.Light{}
	m.r.known(LITCHR, func(at *Attribute) { f.Light.Character, _ = at.Value.integer(1, maxCode) })
	m.r.known(SIGGRP, func(at *Attribute) { f.Light.Group = at.Value.text() })
	m.r.known(SIGPER, func(at *Attribute) {
		if v, ok := at.Value.number(); ok && v > 0 && v < 1000 {
			f.Light.PeriodS = v
		}
	})
	m.r.known(COLOUR, func(at *Attribute) { f.Light.Colours, _ = at.Value.codes(nil) })
}

// axis reads which way a fairway or track runs. It only helps to see which side of a
// channel a mark stands on, so one that cannot be read refuses nothing.
func (m featureMaker) axis(f *chart.Feature) {
	m.r.known(ORIENT, func(at *Attribute) {
		if v, ok := at.Value.number(); ok && v >= 0 && v <= 360 {
			f.Meta = &chart.Meta{OrientDeg: v}
		}
	})
}

func (m featureMaker) meta(f *chart.Feature) {
	f.Meta = &chart.Meta{OrientDeg: chart.Unknown}
	switch f.Class {
	case chart.MCOVR:
		f.Meta.CatCov = m.r.code(CATCOV, maxCode)
	case chart.MQUAL:
		f.Meta.CatZoc = m.worstQuality()
	case chart.MSDAT, chart.MVDAT:
		f.Meta.VerDat = m.r.datum()
	case chart.MNSYS:
		f.Meta.MarSys = m.r.code(MARSYS, maxCode)
		f.Meta.OrientDeg = m.r.number(ORIENT, 0, 360, "degrees")
	}
}

// worstQuality is CATZOC, the worst where S-101 gives several with dates.
func (m featureMaker) worstQuality() (zoc int) {
	for _, code := range m.r.list(CATZOC) {
		zoc = max(zoc, code)
	}
	return zoc
}

// checkPrim refuses a kind of geometry that says nothing for the class.
func (m featureMaker) checkPrim() {
	allowed, limited := primsOf[m.r.Class]
	if limited && !allowed.has(m.r.Geometry.Prim) && !m.r.failed {
		m.r.fail("E-GEOM", "", fmt.Sprintf("%s drawn as %s", Acronym(m.r.Class), m.r.Geometry.Prim), allowed.String())
	}
}
