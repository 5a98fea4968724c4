package screen

import (
	"reflect"
	"testing"

	"keelroom/app/state"
)

// A control is looked at again when it is left: what is typed back to what stood there
// at the start makes no change event, and would stay beside another text of the plan.
func TestFieldsAreSettledWhenLeft(t *testing.T) {
	for _, kind := range []string{state.BoxText, state.BoxArea, state.BoxSelect} {
		b := &box{ID: "x", Kind: kind, Text: "1", Options: [][2]string{{"1", "one"}}}
		handlers := reflect.ValueOf(b.input("x")).Elem().FieldByName("eventHandlers")
		left := false
		for _, event := range handlers.MapKeys() {
			left = left || event.String() == "blur"
		}
		if !left {
			t.Errorf("%q: nothing is done when it is left", kind)
		}
	}
}
