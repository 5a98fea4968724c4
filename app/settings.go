package app

// settings are the choices that are kept.
type settings struct {
	notices *notices
	ports   *ports

	values map[string]string
}

// The settings that are kept.
const (
	settingPalette = "palette"
	settingPlan    = "plan"
	settingHints   = "hints"
	settingDemo    = "demo-chart"
	settingCaution = "cautions"
	settingStops   = "stops" // see setaside.go
)

func (s *settings) set(name, value string) {
	s.values[name] = value
	s.ports.store.SaveSetting(name, value, func(err error) {
		if err != nil {
			s.notices.notify(true, "This choice cannot be kept: "+err.Error())
		}
	})
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
