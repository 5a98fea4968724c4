package app

// forms holds what is typed: into fields of the plan, and into forms that are taken as a whole.
type forms struct {
	history  *history
	notices  *notices
	ports    *ports
	stations *stations

	typed  map[string]typing
	drafts map[string]draft
}
