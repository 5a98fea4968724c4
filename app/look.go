package app

// The tabs of the sheet.
const (
	tabWatch  = "watch"
	tabRoute  = "route"
	tabStays  = "stays"
	tabDay    = "day"
	tabBoat   = "boat"
	tabCharts = "charts"
	tabPlans  = "plans"
	tabAbout  = "about"
)

var tabs = []struct{ id, label string }{
	{tabWatch, "Watch"}, {tabRoute, "Route"}, {tabStays, "Stays"}, {tabDay, "Day"},
	{tabBoat, "Boat"}, {tabCharts, "Charts"}, {tabPlans, "Plans"}, {tabAbout, "About"},
}

// palettes of the screen.
var palettes = []struct{ id, label string }{{"day", "Day"}, {"bright", "Bright sun"}, {"night", "Night"}}

// setPalette colours everything.
func (s *settings) setPalette(name string) {
	known := false
	for _, p := range palettes {
		known = known || p.id == name
	}
	if !known {
		name = palettes[0].id
	}
	s.values[settingPalette] = name
	s.ports.device.SetPalette(name)
	s.ports.chart.SetPalette(name)
	s.ports.strip.SetPalette(name)
}
