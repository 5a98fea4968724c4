package hazards

import (
	"encoding/binary"
	"math"
	"reflect"
	"sync/atomic"
	"time"

	"keelroom/hazards/plan"
)

// settings are what every leg of a plan has in common: the boat, the margins, the
// tide, the weather and all else but the routes, the stays' times and the plan's own
// layer, of which the ground is made. They are kept as the bytes of all exported
// members, so that a member added to the plan is among them without a word here.
type settings struct {
	bytes []byte
	zone  *time.Location
}

// settingsOf reads the settings of a plan into the room of old ones.
func settingsOf(p *plan.Plan, room []byte) settings {
	common := *p
	common.Parts, common.Private = nil, nil
	b := appendValue(room[:0], reflect.ValueOf(&common).Elem())
	for _, s := range p.Stays() {
		if s.Kind == plan.AtMooring { // a leg may pass its own buoy: see mooredTo
			b = appendFloats(b, s.At[0], s.At[1])
		}
	}
	return settings{b, p.Zone}
}

func (s *settings) equal(o *settings) bool {
	return s.zone == o.zone && string(s.bytes) == string(o.bytes)
}

// appendValue writes a value of a plan with all exported members that it has: each
// with its length or in a fixed one, so that different values differ. Members that
// are not exported belong to the codec: no check sees them.
func appendValue(b []byte, v reflect.Value) []byte {
	switch v.Kind() {
	case reflect.Pointer:
		return appendPointer(b, v)
	case reflect.Struct:
		return appendStruct(b, v)
	case reflect.Slice, reflect.Array:
		b = binary.AppendUvarint(b, uint64(v.Len()))
		for i := range v.Len() {
			b = appendValue(b, v.Index(i))
		}
		return b
	case reflect.String:
		return append(binary.AppendUvarint(b, uint64(v.Len())), v.String()...)
	case reflect.Float64:
		return appendFloats(b, v.Float())
	case reflect.Int, reflect.Int64:
		return binary.AppendVarint(b, v.Int())
	case reflect.Bool:
		if v.Bool() {
			return append(b, 1)
		}
		return append(b, 0)
	}
	// A kind of value that a plan does not have yet: nothing is taken for the same.
	return binary.LittleEndian.AppendUint64(b, unlike.Add(1))
}

var unlike atomic.Uint64

func appendPointer(b []byte, v reflect.Value) []byte {
	if v.IsNil() {
		return append(b, 0)
	}
	b = append(b, 1)
	if zone, ok := v.Interface().(*time.Location); ok {
		return append(append(b, zone.String()...), 0)
	}
	return appendValue(b, v.Elem())
}

var timeType = reflect.TypeFor[time.Time]()

func appendStruct(b []byte, v reflect.Value) []byte {
	t := v.Type()
	if t == timeType {
		return appendTimes(b, *v.Addr().Interface().(*time.Time))
	}
	for i := range v.NumField() {
		if t.Field(i).IsExported() {
			b = appendValue(b, v.Field(i))
		}
	}
	return b
}

func appendFloats(b []byte, list ...float64) []byte {
	for _, v := range list {
		b = binary.LittleEndian.AppendUint64(b, math.Float64bits(v))
	}
	return b
}

func appendTimes(b []byte, list ...time.Time) []byte {
	for _, t := range list {
		b = binary.LittleEndian.AppendUint64(b, uint64(t.Unix()))
		b = binary.LittleEndian.AppendUint32(b, uint32(t.Nanosecond()))
	}
	return b
}
