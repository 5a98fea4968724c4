package engine

import (
	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/hazards"
)

// collection is the charts that the checks go by, and the session over them.
type collection struct {
	jobs *jobs
	pace *pace

	sets    []*loadedSet     // in order of arrival
	session *hazards.Session // nil: the sets changed since
	chart   *chart.Chart
	bounds  orb.Bound // of the chart
	bounded bool      // it has any
}
