package app

// settings are the choices that are kept.
type settings struct {
	notices *notices
	ports   *ports

	values map[string]string
}
