package entry

import (
	"errors"
	"math/rand"
	"strings"
	"testing"
	"time"
	_ "time/tzdata"
)

func zone(t testing.TB, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

var day = Day{2026, time.July, 18}

func TestClock(t *testing.T) {
	want := time.Date(2026, 7, 18, 16, 5, 0, 0, time.UTC)
	for _, text := range []string{"14:05", "1405", "14.05", "14h05", " 14:05 "} {
		got, err := Clock(text, day, zone(t, "Etc/GMT+2"))
		if err != nil || !got.Equal(want) {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	for _, test := range []struct{ text, says string }{
		{"", "nothing typed"}, {"14", "several ways"}, {"930", "several ways"}, {"24:00", "next day"}, {"25:00", "00 to 23"}, {"12:60", "00 to 59"}, {"2 pm", "24-hour"}, {"2:30 p.m.", "24-hour"},
		{"1405Z", "plan's zone"}, {"14:05 UTC", "plan's zone"}, {"noon", "no time"}, {"14:5", "no time"}, {"14:05:00", "no time"}, {"-1:00", "no time"}, {"１４:05", "no time"}, {"14:٠٥", "no time"},
	} {
		if got, err := Clock(test.text, day, time.UTC); err == nil || !strings.Contains(err.Error(), test.says) {
			t.Errorf("%q: %v, %v; want %q", test.text, got, err, test.says)
		}
	}
}

// Changes of the clocks from the IANA time zone database (2025b): Rule EU, last Sunday
// of March and of October at 1:00 UT; Rule US, second Sunday of March and first of
// November at 2:00; Rule LH, first Sunday of April at 2:00 by half an hour; Zone
// Pacific/Apia, which left out 30 December 2011.
func TestClockChanges(t *testing.T) {
	for _, test := range []struct {
		zone        string
		day         Day
		skipped     string
		from, to    string
		kept, kept2 string
	}{
		{"Europe/Berlin", Day{2026, 3, 29}, "02:30", "02:00", "03:00", "01:59", "03:00"},
		{"America/New_York", Day{2026, 3, 8}, "02:00", "02:00", "03:00", "01:59", "03:00"},
		{"Australia/Lord_Howe", Day{2026, 10, 4}, "02:15", "02:00", "02:30", "01:59", "02:30"},
		{"Pacific/Apia", Day{2011, 12, 30}, "12:00", "00:00", "00:00", "", ""},
	} {
		z := zone(t, test.zone)
		_, err := Clock(test.skipped, test.day, z)
		var skipped *Skipped
		if !errors.As(err, &skipped) || skipped.From != test.from || skipped.To != test.to {
			t.Errorf("%s %s %s: %v", test.zone, test.day, test.skipped, err)
		}
		for _, kept := range []string{test.kept, test.kept2} {
			if kept == "" {
				continue
			}
			if got, err := Clock(kept, test.day, z); err != nil || got.In(z).Format("15:04") != kept {
				t.Errorf("%s %s %s: %v, %v", test.zone, test.day, kept, got, err)
			}
		}
	}
	for _, test := range []struct {
		zone          string
		day           Day
		clock         string
		first, second string // UT
	}{
		{"Europe/Berlin", Day{2026, 10, 25}, "02:30", "00:30", "01:30"},
		{"Europe/Berlin", Day{2026, 10, 25}, "02:00", "00:00", "01:00"},
		{"Europe/Berlin", Day{2026, 10, 25}, "03:00", "02:00", ""},
		{"America/New_York", Day{2026, 11, 1}, "01:59", "05:59", "06:59"},
		{"America/New_York", Day{2026, 11, 1}, "02:00", "07:00", ""},
		{"Australia/Lord_Howe", Day{2026, 4, 5}, "01:45", "14:45", "15:15"},
	} {
		got, err := Clock(test.clock, test.day, zone(t, test.zone))
		var twice *Ambiguous
		switch {
		case test.second == "" && (err != nil || got.UTC().Format("15:04") != test.first):
			t.Errorf("%s %s %s: %v, %v", test.zone, test.day, test.clock, got, err)
		case test.second == "":
		case !errors.As(err, &twice) || twice.First.UTC().Format("15:04") != test.first || twice.Second.UTC().Format("15:04") != test.second:
			t.Errorf("%s %s %s: %v", test.zone, test.day, test.clock, err)
		}
	}
}

// Any instant comes back from what the clocks show: alone, or as one of two.
func TestClockRoundTrip(t *testing.T) {
	rng := rand.New(rand.NewSource(2))
	for _, name := range []string{"Europe/Berlin", "America/New_York", "Australia/Lord_Howe", "Atlantic/Azores", "Pacific/Apia", "Africa/Casablanca", "Europe/Dublin", "Asia/Kathmandu", "UTC"} {
		z := zone(t, name)
		for range 300 {
			at := time.Unix(rng.Int63n(60*365*86400)/60*60+365*5*86400+86400*2, 0).In(z)
			got, err := Clock(at.Format("15:04"), DayOf(at, z), z)
			var twice *Ambiguous
			if errors.As(err, &twice) && (twice.First.Equal(at) || twice.Second.Equal(at)) {
				continue
			}
			if at.Second() == 0 && (err != nil || !got.Equal(at)) {
				t.Fatalf("%s %v: %v, %v", name, at, got, err)
			}
		}
	}
}

// Offsets from the IANA time zone database: Berlin UTC+1, New York UTC-5, Dublin UTC+0
// in winter, though its own law calls summer time standard; Sydney UTC+10.
func TestStandardTime(t *testing.T) {
	for name, want := range map[string]int{"Europe/Berlin": 3600, "America/New_York": -5 * 3600, "Europe/Dublin": 0, "Australia/Sydney": 36000, "UTC": 0, "Etc/GMT+2": -7200} {
		if _, got := time.Date(2026, 7, 1, 0, 0, 0, 0, StandardTime(zone(t, name), 2026)).Zone(); got != want {
			t.Errorf("%s: %d s, want %d", name, got, want)
		}
	}
}

func TestDate(t *testing.T) {
	for _, text := range []string{"2026-07-18", "18.7.2026", "18.07.2026", "18 July 2026", "18 jul 2026", "18. July 2026", "2026-7-18"} {
		if got, err := Date(text); err != nil || got != day {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	for _, test := range []struct{ text, says string }{
		{"", "nothing typed"}, {"7/18/2026", "day or the month first"}, {"18.7.", "with its year"}, {"18.7.26", "with its year"}, {"2026-02-29", "not in the calendar"},
		{"2026-13-01", "not in the calendar"}, {"31 June 2026", "not in the calendar"}, {"0026-07-18", "1975"}, {"tomorrow", "with its year"}, {"2026-00-10", "not in the calendar"},
	} {
		if got, err := Date(test.text); err == nil || !strings.Contains(err.Error(), test.says) {
			t.Errorf("%q: %v, %v; want %q", test.text, got, err, test.says)
		}
	}
	if got, err := Date("2028-02-29"); err != nil || got.String() != "2028-02-29" {
		t.Error(got, err)
	}
}

func FuzzClock(f *testing.F) {
	f.Add("14:05", "2026-03-29")
	f.Add("0230", "2026-10-25")
	f.Add("24:00", "18 July 2026")
	z := zone(f, "Europe/Berlin")
	f.Fuzz(func(t *testing.T, text, date string) {
		d, err := Date(date)
		if err != nil {
			return
		}
		at, err := Clock(text, d, z)
		if err == nil && DayOf(at, z) != d {
			t.Errorf("%q on %s gives %v", text, d, at)
		}
	})
}
