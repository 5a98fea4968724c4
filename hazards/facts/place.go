package facts

import "keelroom/geo/chart"

// What is said of a place.
const (
	UnreadThere     = "place-not-read"
	UnknownNear     = "place-unknown-near"
	LayerThere      = "place-layer"
	LayerDepth      = "place-layer-depth"
	LandThere       = "place-land"
	DepthUnknown    = "place-depth-unknown"
	DepthThere      = "place-depth"
	NoChartThere    = "place-no-chart"
	NoDepthThere    = "place-no-depth"
	NoTideThere     = "place-no-tide"
	NoHeightThere   = "place-no-height"
	HeightThere     = "place-height"
	NoLevelThere    = "place-levels-differ"
	DryThere        = "place-dry"
	WaterThere      = "place-water"
	SoundingThere   = "place-sounding"
	DangerThere     = "place-danger"
	ThingThere      = "place-thing"
	WatersThere     = "place-waters"
	OverheadThere   = "place-overhead"
	RulesThere      = "place-rules"
	UnreadMarkThere = "place-mark-not-read"
	SurveyThere     = "place-survey"
)

// Figure is a figure that may not be known.
type Figure struct {
	Value float64
	Known bool
}

// FigureOf is the figure of a chart, where Unknown is not known.
func FigureOf(v float64) Figure {
	if !chart.Known(v) {
		return Figure{}
	}
	return Figure{v, true}
}

// There is what lies at a place, or close by.
type There struct {
	plain
	What   string
	Thing  Thing
	Metres int // away, 0: here
	Low    Figure
	High   Figure
	Datum  int // VERDAT
	Info   string
	Why    Unknown
	// Layer is one that is no chart in force; Cancelled, that its producer cancelled
	// it; Private, that it has no name.
	Layer     string
	Cancelled bool
	Private   bool
	Less      bool // LayerDepth: less than the chart, and here
	Dredged   bool
	When      Clock
	Value     float64 // metres
	CatZoc    int
	Water     string // the code of Waters
}

// Code is what is said.
func (t There) Code() string { return t.What }

// OverheadClearances are those charted of a thing to pass under.
type OverheadClearances struct {
	plain
	Name               string
	Metres             int
	Open, Safe, Closed Figure
	Datum              int
}

// Code is what is said.
func (OverheadClearances) Code() string { return OverheadThere }

// AreaRules are what holds in an area.
type AreaRules struct {
	plain
	Name           string
	SpeedZone      bool
	Limit          Figure // knots
	Restrn, CatRea chart.Codes
	OffSeason      bool
	Info           string
}

// Code is what is said.
func (AreaRules) Code() string { return RulesThere }
