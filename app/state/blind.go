package state

import (
	"github.com/paulmach/orb"

	"keelroom/hazards"
)

// blindChart and blindStrip stand in until the views are there.
type blindChart struct{}

type blindStrip struct{}

func (blindChart) SetSet(string, Doc)                {}
func (blindChart) SetOrder([]ShownSet)               {}
func (blindChart) SetPrivate(Doc)                    {}
func (blindChart) SetPlan(string)                    {}
func (blindChart) SetReport(Doc)                     {}
func (blindChart) Follow(planRev, chartRev int)      {}
func (blindChart) SetWater(*hazards.Water, []string) {}
func (blindChart) SetMode(string)                    {}
func (blindChart) SketchDone()                       {}
func (blindChart) SketchBack()                       {}
func (blindChart) SketchCancel()                     {}
func (blindChart) AddAtCentre()                      {}
func (blindChart) SetPalette(string)                 {}
func (blindChart) GoTo(orb.Point)                    {}
func (blindChart) Fit([4]float64)                    {}
func (blindChart) Select(feature, vertex int)        {}
func (blindChart) ZoomBy(float64)                    {}
func (blindChart) MarkPlace(*orb.Point)              {}
func (blindChart) SetWatch(string)                   {}

func (blindChart) MarkAnchorages([]orb.Point) {}

func (blindStrip) SetDay(Doc)        {}
func (blindStrip) SetRibbon(string)  {}
func (blindStrip) SetCursor(int64)   {}
func (blindStrip) SetPalette(string) {}
