package plan

import "time"

// Anchorage is a place to lie at that was found: what a stay there would carry in a
// report, its rank among those found, and what speaks for and against it.
type Anchorage struct {
	StayResult
	Rank         int      // 1 is the best
	Severity     Severity // of what the checks say of lying there: clear or care
	Why, Against []string
	FromRouteMin *float64 // straight from where she comes, minutes
	SeaTurnedM   *float64 // the greatest sea if the wind turns by margins.wind_room_deg
	Points       *AnchoragePoints
}

// AnchoragePoints are what places are ranked by; fewer are better.
type AnchoragePoints struct {
	Sea, Room, Bottom, Way, Care float64

	kept
}

func (p *AnchoragePoints) fields() []field {
	part := func(key string, v *float64) field { return tenths(key, &v) }
	return []field{part("sea", &p.Sea), part("room", &p.Room), part("bottom", &p.Bottom), part("way", &p.Way), part("care", &p.Care)}
}

func (a *Anchorage) fields() []field {
	stay := a.StayResult.fields()
	return append([]field{constant("kind", "anchorage"), count("rank", &a.Rank), severity("severity", &a.Severity), texts("why", &a.Why), texts("against", &a.Against),
		tenths("from_route_min", &a.FromRouteMin), up("sea_turned_m", &a.SeaTurnedM),
		orNull(nested("points", &a.Points, func() AnchoragePoints { return AnchoragePoints{} }))}, stay[1:]...)
}

// EncodeAnchorages writes places to lie at as RFC 7946 GeoJSON in their order, times
// with the offset of the zone (nil: UTC).
func EncodeAnchorages(list []Anchorage, zone *time.Location) []byte {
	if zone == nil {
		zone = time.UTC
	}
	w := &writer{zone: zone}
	lines := make([][]byte, len(list))
	for i := range list {
		lines[i] = w.answer(&list[i]).AppendJSON(nil)
	}
	return append(appendLines([]byte("{\n\"type\": \"FeatureCollection\",\n\"features\": "), lines), "\n}\n"...)
}
