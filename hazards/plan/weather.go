package plan

import "time"

// GustFactor is the gust over the 10-minute mean where no gust is given.
const GustFactor = 1.4

// Wind is a 10-minute mean at 10 m at one time.
type Wind struct {
	Time    time.Time
	FromDeg float64
	Kn      float64
	GustKn  *float64 // as stated; see Gust

	kept
}

// Gust returns the gust in knots: as stated, else GustFactor × Kn.
func (w *Wind) Gust() float64 {
	if w.GustKn != nil {
		return *w.GustKn
	}
	return GustFactor * w.Kn
}

var circle = numberRange{0, 360, "degrees"}

func (w *Wind) fields() []field {
	return []field{
		required(moment("time", &w.Time)),
		required(number("from_deg", &w.FromDeg, 0, circle)),
		required(number("kn", &w.Kn, 0, numberRange{0, 200, "knots"})),
		checked(optional("gust_kn", &w.GustKn, numberRange{0, 300, "knots"}), func() string {
			if w.GustKn != nil && *w.GustKn < w.Kn {
				return said(*w.GustKn) + " is below the mean of " + said(w.Kn) + " knots; a gust of at least the mean is wanted"
			}
			return ""
		}),
	}
}

// Swell at one time.
type Swell struct {
	Time    time.Time
	FromDeg float64
	HeightM float64 // significant
	PeriodS float64

	kept
}

func (s *Swell) fields() []field {
	return []field{
		required(moment("time", &s.Time)),
		required(number("from_deg", &s.FromDeg, 0, circle)),
		required(number("height_m", &s.HeightM, 0, numberRange{0, 30, "metres"})),
		required(number("period_s", &s.PeriodS, 0, numberRange{1, 40, "seconds"})),
	}
}

// Stream is the tidal or other stream at one time.
type Stream struct {
	Time      time.Time
	TowardDeg float64
	Kn        float64

	kept
}

func (s *Stream) fields() []field {
	return []field{
		required(moment("time", &s.Time)),
		required(number("toward_deg", &s.TowardDeg, 0, circle)),
		required(number("kn", &s.Kn, 0, numberRange{0, 30, "knots"})),
	}
}
