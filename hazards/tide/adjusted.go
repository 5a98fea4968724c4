package tide

import (
	"fmt"
	"time"
)

// Adjusted is t with adjustM metres added to every height: what the weather, a surge forecast or a
// gauge says, negative when water stands low. Turning points keep their times.
func Adjusted(t Tide, adjustM float64) Tide {
	if adjustM == 0 {
		return t
	}
	return adjusted{t, adjustM}
}

type adjusted struct {
	base    Tide
	adjustM float64
}

func (a adjusted) HeightM(t time.Time) (float64, bool) { return a.shift(a.base.HeightM(t)) }

func (a adjusted) Least(from, to time.Time) (float64, bool) { return a.shift(a.base.Least(from, to)) }

func (a adjusted) Greatest(from, to time.Time) (float64, bool) {
	return a.shift(a.base.Greatest(from, to))
}

func (a adjusted) shift(h float64, ok bool) (float64, bool) {
	if !ok {
		return 0, false
	}
	return h + a.adjustM, true
}

func (a adjusted) Events(from, to time.Time) []Event {
	base := a.base.Events(from, to)
	out := make([]Event, len(base))
	for i, e := range base {
		e.HeightM += a.adjustM
		out[i] = e
	}
	return out
}

func (a adjusted) RangeM(t time.Time) (float64, bool) { return a.base.RangeM(t) }

func (a adjusted) Method() Method { return a.base.Method() }

func (a adjusted) Covers() (from, to time.Time, bounded bool) { return a.base.Covers() }

func (a adjusted) Describe() string {
	return fmt.Sprintf("%s; %+.2f m added to every height", a.base.Describe(), a.adjustM)
}
