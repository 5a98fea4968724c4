package edit

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"keelroom/hazards/plan"
)

func TestRemovePart(t *testing.T) {
	names := func(p *plan.Plan) string {
		var all []string
		for _, part := range p.Parts {
			if part.Route != nil {
				all = append(all, fmt.Sprintf("%s/%d", part.Route.Name, len(part.Route.Points)))
			} else {
				all = append(all, part.Stay.Name)
			}
		}
		return strings.ReplaceAll(strings.Join(all, ", "), "INVENTED ", "")
	}
	for _, test := range []struct {
		part int
		want string
	}{
		{0, "on/3, Hole, home/3"},
		{1, "out/6, Hole, home/3"},
		{2, "out/4, Bay, home/3"},
		{3, "out/4, Bay, on/5"},
		{4, "out/4, Bay, on/3, Hole"},
	} {
		p := day(t)
		accepted(t, p, RemovePart(p, test.part))
		if got := names(p); got != test.want {
			t.Errorf("without part %d: %s, want %s", test.part, got, test.want)
		}
	}
	p := day(t)
	accepted(t, p, RemovePart(p, 0))
	if d := p.Parts[0].Route.Depart; d == nil || d.Format("15:04") != "14:00" {
		t.Errorf("the day begins when the stay would have ended, 14:00 UT, not at %v", d)
	}
	p = day(t)
	accepted(t, p, RemovePart(p, 1))
	if got := p.Parts[0].Route.SpeedsKn; !slices.Equal(got, []float64{5, 20, 8, 20, 20}) {
		t.Errorf("speeds of the route made of two: %v", got)
	}
	for len(p.Parts) > 0 {
		if err := RemovePart(p, 0); err != nil {
			t.Fatal(err)
		}
	}
}

func TestShift(t *testing.T) {
	p := day(t)
	accepted(t, p, ShiftDay(p, 90*time.Minute))
	if got := times(p); got != "12:30 15:30 18:30" {
		t.Errorf("the whole day: %s", got)
	}
	p = day(t)
	accepted(t, p, DepartAt(p, p.Parts[0].Route.Depart.Add(-time.Hour)))
	if got := times(p); got != "10:00 13:00 16:00" {
		t.Errorf("a chosen departure: %s", got)
	}
	for part, want := range []string{"11:10 14:10 17:10", "11:10 14:10 17:10", "11:00 14:10 17:10", "11:00 14:10 17:10", "11:00 14:00 17:10"} {
		p := day(t)
		accepted(t, p, ShiftFrom(p, part, 10*time.Minute))
		if got := times(p); got != want {
			t.Errorf("from part %d: %s, want %s", part, got, want)
		}
	}
	if p.BackBy.Format("15:04") != "20:00" {
		t.Error("the time to be back stays")
	}
	accepted(t, p, SetDepart(p, *ptr(p.Parts[0].Route.Depart.Add(time.Hour))))
	if got := times(p); got != "11:00 13:00 16:00" {
		t.Errorf("the departure alone: %s", got)
	}
}

// times of the day in UT.
func times(p *plan.Plan) string {
	all := []string{p.Parts[0].Route.Depart.UTC().Format("15:04")}
	for _, s := range p.Stays() {
		all = append(all, s.Until.UTC().Format("15:04"))
	}
	return strings.Join(all, " ")
}
