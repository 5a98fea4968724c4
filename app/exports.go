package app

import (
	"strings"
	"unicode"

	"keelroom/app/gpx"
	"keelroom/app/phrase"
)

// exports writes files.
type exports struct {
	cells    *cells
	charts   *charts
	checks   *checks
	history  *history
	keeper   *keeper
	notices  *notices
	ports    *ports
	settings *settings
}

// ExportPlan, ExportReport and ExportGPX save files; SharePlan hands the plan to
// the device's share sheet.
func (e *exports) plan() {
	e.ports.device.Save(e.fileName(".geojson"), kindGeoJSON, withCautions(e.history.open.Text))
	e.keeper.wasExported(e.history.open.ID, e.history.open.Text)
}

// ExportReport saves the report of the plan as it is on the screen.
func (e *exports) report() {
	if e.checks.day.Report == nil || e.checks.stale() || e.checks.checking.tried {
		e.notices.notify(true, "There is no report of this plan yet.")
		return
	}
	e.ports.device.Save(e.fileName(" report.geojson"), kindGeoJSON, string(e.checks.day.Report.Encode(e.history.plan.Zone)))
}

// ExportGPX saves the routes for other devices.
func (e *exports) gpx() {
	b, err := gpx.Encode(e.history.plan, e.ports.device.Now())
	if err != nil {
		e.notices.notify(true, phrase.Capital(plain(err))+".")
		return
	}
	e.ports.device.Save(e.fileName(".gpx"), "application/gpx+xml", string(b))
}

// SharePlan hands the plan file over.
func (e *exports) share() {
	e.ports.device.Share(e.fileName(".geojson"), kindGeoJSON, withCautions(e.history.open.Text), e.history.plan.Title, func(err error) {
		e.notices.notify(true, "Not shared: "+err.Error()+". Export the plan to a file instead.")
	})
}

const kindGeoJSON = "application/geo+json"

// fileName is the plan's title without what a file system may not like.
func (e *exports) fileName(ending string) string {
	name := strings.Map(func(c rune) rune {
		switch {
		case unicode.IsLetter(c) || unicode.IsDigit(c) || c == '-' || c == ' ':
			return c
		}
		return -1
	}, e.history.plan.Title)
	if name = strings.TrimSpace(name); name == "" {
		name = "plan"
	}
	return name + ending
}
