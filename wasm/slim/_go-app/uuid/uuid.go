// Package uuid stands for github.com/google/uuid in the browser's program, in which
// nothing asks for such a name.
package uuid

// NewString is left out: it would bring all of crypto/rand along.
func NewString() string { panic("uuid.NewString: left out of the browser's program: see wasm/slim") }
