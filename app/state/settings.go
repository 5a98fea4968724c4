package state

// Settings are the choices that are kept.
type Settings struct {
	notices *Notices
	ports   *Ports

	Values map[string]string
}

// The settings that are kept.
const (
	SettingPalette = "palette"
	settingPlan    = "plan"
	SettingHints   = "hints"
	settingDemo    = "demo-chart"
	SettingCaution = "cautions"
	settingStops   = "stops" // see setaside.go
)

func (s *Settings) set(name, value string) {
	s.Values[name] = value
	s.ports.store.SaveSetting(name, value, func(err error) {
		if err != nil {
			s.notices.notify(true, "This choice cannot be kept: "+err.Error())
		}
	})
}

// Palettes of the screen.
var Palettes = []struct{ ID, Label string }{{"day", "Day"}, {"bright", "Bright sun"}, {"night", "Night"}}

// setPalette colours everything.
func (s *Settings) setPalette(name string) {
	known := false
	for _, p := range Palettes {
		known = known || p.ID == name
	}
	if !known {
		name = Palettes[0].ID
	}
	s.Values[SettingPalette] = name
	s.ports.Device.SetPalette(name)
	s.ports.chart.SetPalette(name)
	s.ports.strip.SetPalette(name)
}
