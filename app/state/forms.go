package state

// rejected is what was typed into a field and refused.
type rejected struct {
	Text, Wrong string
	Choices     []choice
}

// choice is one answer to a question that what was typed leaves open.
type choice struct{ Label, Value string }
