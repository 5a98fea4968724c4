package state

import (
	"strings"
	"unicode"

	"keelroom/app/gpx"
	"keelroom/app/phrase"
)

// Exports writes files.
type Exports struct {
	cells    *Cells
	charts   *Charts
	checks   *Checks
	history  *History
	keeper   *Keeper
	notices  *Notices
	ports    *Ports
	settings *Settings
}

// plan saves the plan file.
func (e *Exports) plan() {
	e.ports.Device.Save(e.fileName(".geojson"), kindGeoJSON, withCautions(e.history.Open.Text))
	e.keeper.wasExported(e.history.Open.ID, e.history.Open.Text)
}

// report saves the report of the plan as it is on the screen.
func (e *Exports) report() {
	if e.checks.Day.Report == nil || e.checks.Stale() || e.checks.Moving != nil {
		e.notices.notify(true, "There is no report of this plan yet.")
		return
	}
	e.ports.Device.Save(e.fileName(" report.geojson"), kindGeoJSON, string(e.checks.Day.Report.Encode(e.history.Plan.Zone)))
}

// gpx saves the routes for other devices.
func (e *Exports) gpx() {
	b, err := gpx.Encode(e.history.Plan, e.ports.Device.Now())
	if err != nil {
		e.notices.notify(true, phrase.Capital(plain(err))+".")
		return
	}
	e.ports.Device.Save(e.fileName(".gpx"), "application/gpx+xml", string(b))
}

// share hands the plan file over.
func (e *Exports) share() {
	e.ports.Device.Share(e.fileName(".geojson"), kindGeoJSON, withCautions(e.history.Open.Text), e.history.Plan.Title, func(err error) {
		e.notices.notify(true, "Not shared: "+err.Error()+". Export the plan to a file instead.")
	})
}

const kindGeoJSON = "application/geo+json"

// fileName is the plan's title without what a file system may not like.
func (e *Exports) fileName(ending string) string {
	name := strings.Map(func(c rune) rune {
		switch {
		case unicode.IsLetter(c) || unicode.IsDigit(c) || c == '-' || c == ' ':
			return c
		}
		return -1
	}, e.history.Plan.Title)
	if name = strings.TrimSpace(name); name == "" {
		name = "plan"
	}
	return name + ending
}
