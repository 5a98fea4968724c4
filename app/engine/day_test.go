package engine

import (
	"encoding/json"
	"testing"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards"
	"keelroom/hazards/plan"
)

// dayRead is a day as the strip reads it.
type dayRead struct {
	Zone, Date string
	From, To   int64
	Hours      []struct {
		T     int64
		Label string
		Again bool
	}
	Tide *struct {
		Points []*[2]float64
		Events []struct {
			T    int64
			Kind string
			H    float64
		}
	}
	Water     []*[4]float64
	WaterSets []string `json:"water_sets"`
	Light     []struct {
		From, To int64
		Kind     string
	}
	Wind   []struct{ T int64 }
	Blocks []Block
}

// dayOn is the demo's day moved to 10 o'clock of a date in a zone.
func dayOn(t *testing.T, zone, date string) (dayRead, *plan.Plan, *plan.Report) {
	t.Helper()
	p := planOf(t, demoPlan(t))
	if err := p.SetZone(zone); err != nil {
		t.Fatal(err)
	}
	day, err := time.ParseInLocation(time.DateTime, date+" 10:00:00", p.Zone)
	if err != nil {
		t.Fatal(err)
	}
	p = p.Later(day.Sub(*p.Routes()[0].Depart))
	set := decodeFiles(t, demoFiles(t))
	c := chart.New(set)
	r, err := hazards.Check(c, p)
	if err != nil {
		t.Fatal(err)
	}
	b, err := Day(c, SetIDs{set: "demo"}, p, r)
	if err != nil {
		t.Fatal(err)
	}
	var d dayRead
	if err := json.Unmarshal(b, &d); err != nil {
		t.Fatal(err)
	}
	return d, p, r
}

// Days of clock change, by the rules of the tz database: hours there are, and
// the label that is missing or doubled.
func TestDayOfClockChange(t *testing.T) {
	for _, c := range []struct {
		zone, date string
		hours      int
		first      string
		label      string
		times      int
	}{
		{"Europe/Lisbon", "2026-03-29", 23, "00", "01", 0},
		{"Europe/Lisbon", "2026-10-25", 25, "00", "01", 2},
		{"Europe/Berlin", "2026-03-29", 23, "00", "02", 0},
		{"Europe/Berlin", "2026-10-25", 25, "00", "02", 2},
		{"Europe/Berlin", "2026-07-18", 24, "00", "02", 1},
		{"Australia/Lord_Howe", "2026-10-04", 23, "00", "02", 0}, // forward by half an hour at 02:00: 02:30 follows
		{"Africa/Cairo", "2026-04-24", 23, "01", "00", 0},        // forward at midnight
		{"Etc/GMT+2", "2026-07-18", 24, "00", "12", 1},
	} {
		d, p, _ := dayOn(t, c.zone, c.date)
		labels := map[string]int{}
		for _, h := range d.Hours {
			labels[h.Label]++
			if at := time.Unix(h.T, 0).In(p.Zone); at.Minute() != 0 || at.Format("15") != h.Label || at.Format(time.DateOnly) != c.date {
				t.Errorf("%s %s: %s is labelled %s", c.zone, c.date, at, h.Label)
			}
		}
		again := 0
		for i, h := range d.Hours {
			if h.Again {
				again++
				if d.Hours[i-1].Label != h.Label || h.Label != c.label {
					t.Errorf("%s %s: %s is said to come again", c.zone, c.date, h.Label)
				}
			}
		}
		if again != max(0, c.times-1) {
			t.Errorf("%s %s: %d hours come again, want %d", c.zone, c.date, again, max(0, c.times-1))
		}
		if len(d.Hours) != c.hours || labels[c.label] != c.times || d.Hours[0].Label != c.first || d.Date != c.date {
			t.Errorf("%s %s: %d hours from %s, %s %d times; want %d from %s, %d times", c.zone, c.date, len(d.Hours), d.Hours[0].Label, c.label, labels[c.label], c.hours, c.first, c.times)
		}
		steps := int(d.To-d.From)/600 + 1
		if len(d.Tide.Points) != steps || len(d.Water) != steps {
			t.Errorf("%s %s: %d heights, %d waters for %d steps", c.zone, c.date, len(d.Tide.Points), len(d.Water), steps)
		}
		if d.Light[0].From != d.From || d.Light[len(d.Light)-1].To != d.To {
			t.Errorf("%s %s: the light does not cover the day", c.zone, c.date)
		}
		for i := 1; i < len(d.Light); i++ {
			if d.Light[i].From != d.Light[i-1].To || d.Light[i].Kind == d.Light[i-1].Kind {
				t.Errorf("%s %s: light %v after %v", c.zone, c.date, d.Light[i], d.Light[i-1])
			}
		}
	}
}

// The demo's day: heights are those of the tide, the water is shallower than the
// least of them, the light is that of an almanac day at 43 N, the blocks follow
// the report, with a quarter of an hour of warm-up at the first start and after
// the stop of over two hours.
func TestDay(t *testing.T) {
	d, p, r := dayOn(t, "Etc/GMT+2", "2026-07-18")
	source, err := hazards.NewTide(p.Tide)
	if err != nil {
		t.Fatal(err)
	}
	for i, point := range d.Tide.Points {
		h, _ := source.HeightM(time.Unix(int64(point[0]), 0))
		w := d.Water[i]
		if off := h - point[1]; off > 5e-4 || off < -5e-4 || int64(w[0]) != int64(point[0]) {
			t.Errorf("height %v at %v, want %.4f", point[1], int64(point[0]), h)
		}
		if w[1] < -h+p.Margins.TideM-1e-9 || w[2] < w[1] || w[3] < w[2]+p.Margins.UnderKeelM {
			t.Errorf("the water %v with a height of %.3f", w, h)
		}
	}
	for _, e := range d.Tide.Events {
		for _, way := range []int64{-600, 600} {
			h, _ := source.HeightM(time.Unix(e.T+way, 0))
			if (e.Kind == "HW") != (h < e.H) {
				t.Errorf("%s %.3f m, ten minutes off %.3f m", e.Kind, e.H, h)
			}
		}
	}
	if len(d.WaterSets) != 1 || d.WaterSets[0] != "demo" || len(d.Tide.Events) != 4 {
		t.Errorf("%v %v", d.WaterSets, d.Tide.Events)
	}
	kinds := ""
	for _, s := range d.Light {
		kinds += s.Kind + " "
	}
	if kinds != "night twilight day twilight night " {
		t.Errorf("light: %s", kinds)
	}
	checkBlocks(t, d, p, r)
}

func checkBlocks(t *testing.T, d dayRead, p *plan.Plan, r *plan.Report) {
	t.Helper()
	var warm []int64
	for i, b := range d.Blocks {
		if i > 0 && b.From != d.Blocks[i-1].To {
			t.Errorf("block %d begins at %d, the one before ends at %d", i, b.From, d.Blocks[i-1].To)
		}
		part := p.Parts[b.Part]
		switch b.Kind {
		case BlockWarmUp:
			warm = append(warm, b.To-b.From)
		case BlockUnderWay:
			if part.Route == nil || b.Name != part.Route.Name {
				t.Errorf("%+v is no route", b)
			}
		default:
			if part.Stay == nil || b.Kind != part.Stay.Kind || b.To != part.Stay.Until.Unix() {
				t.Errorf("%+v is no stay", b)
			}
		}
	}
	for _, s := range warm {
		if s < 899 || s > 901 {
			t.Errorf("a warm-up of %d s, a quarter of an hour is wanted", s)
		}
	}
	stops := 0
	for i, s := range r.Stays {
		if i < len(r.Stays) && s.Until.Sub(*s.Arrive) > 2*time.Hour && i+1 < len(p.Routes()) {
			stops++
		}
	}
	if len(warm) != 1+stops {
		t.Errorf("%d warm-ups, want one and %d after long stops", len(warm), stops)
	}
	if first := d.Blocks[0].From; first != r.Depart.Unix() {
		t.Errorf("the first block begins at %d", first)
	}
}

// A day that runs over midnight goes on to the next one; without tide and wind
// there is none of either.
func TestDayRunsOver(t *testing.T) {
	p := planOf(t, demoPlan(t))
	p.Tide, p.Wind, p.BackBy = nil, nil, nil
	p = p.Later(11 * time.Hour)
	c := chart.New()
	r, err := hazards.Check(c, p)
	if err != nil {
		t.Fatal(err)
	}
	b, err := Day(c, nil, p, r)
	if err != nil {
		t.Fatal(err)
	}
	var d dayRead
	if err := json.Unmarshal(b, &d); err != nil {
		t.Fatal(err)
	}
	if d.To-d.From != 48*3600 || d.Tide != nil || len(d.Wind) != 0 || len(d.WaterSets) != 0 {
		t.Errorf("%d h, tide %v, wind %v, sets %v", (d.To-d.From)/3600, d.Tide, d.Wind, d.WaterSets)
	}
	for _, w := range d.Water {
		if w != nil {
			t.Fatalf("water %v without a tide", w)
		}
	}
}
