package entry

import (
	"strings"
	"testing"
	"time"
)

func onTheDay(text string) (time.Time, error) {
	return Clock(text, Day{2026, 7, 18}, time.UTC)
}

func TestReadSounding(t *testing.T) {
	noon := time.Date(2026, 7, 18, 12, 10, 0, 0, time.UTC)
	for _, text := range []string{"6.4 12:10", "6,4 m at 12:10", " 6.4m  12:10 ", "6.4 metres 12:10", "6.4 at 12:10"} {
		got, err := ReadSounding(text, onTheDay)
		if err != nil || got != (Sounding{6.4, noon}) {
			t.Errorf("%q: %v, %v; want 6.4 m at 12:10", text, got, err)
		}
	}
}

// What is typed wrongly is refused, with words for what to type.
func TestReadSoundingRefuses(t *testing.T) {
	for text, want := range map[string]string{
		"":             "nothing typed",
		"6.4":          "the time of the sounding is wanted too",
		"6.4 m":        "the time of the sounding is wanted too",
		"12:10":        "the depth is wanted before the time",
		"at 12:10":     "is not a number",
		"21 ft 12:10":  "6.4 m", // 21 x 0.3048 m (NIST SP 811)
		"3 fm 12:10":   "5.49 m",
		"0 12:10":      "not a depth to anchor in",
		"-2 12:10":     "not a depth to anchor in",
		"240 12:10":    "not a depth to anchor in",
		"deep 12:10":   "is not a number",
		"6.4 25:10":    "25:10",
		"6.4 in 12:10": "0.16 m",
	} {
		if got, err := ReadSounding(text, onTheDay); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, %v; want %q", text, got, err, want)
		}
	}
}

func FuzzReadSounding(f *testing.F) {
	for _, seed := range []string{"6.4 12:10", "6,4 m at 12:10", "2026-07-18 12:10", "21 ft 12:10", "6.4 2026-07-18T12:10:00Z"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := ReadSounding(text, onTheDay)
		if err == nil && !(s.M >= leastSoundingM && s.M <= mostSoundingM && !s.At.IsZero()) {
			t.Errorf("%q gives %v", text, s)
		}
	})
}
