package tide

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"unicode"

	"github.com/paulmach/orb"
	"github.com/tidwall/geodesic"
)

// Search finds stations by name, id or country, at most max of them, best first. Case and accents
// do not count. Every word of text must be found in the station's name, id or country. First come
// an id that is the text, a name that is it, a name that begins with it, names with words that
// begin with the words of text, and then any others; reference stations before subordinate ones,
// then by name and id.
func (s *Stations) Search(text string, max int) []StationInfo {
	query := strings.Join(strings.Fields(fold(text)), " ")
	if query == "" || max <= 0 {
		return nil
	}
	type hit struct{ rank, station int }
	var hits []hit
	for i := range s.heads {
		if rank, ok := s.rank(i, query); ok {
			hits = append(hits, hit{rank, i})
		}
	}
	slices.SortFunc(hits, func(a, b hit) int {
		return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(s.folded[a.station], s.folded[b.station]),
			cmp.Compare(a.station, b.station))
	})
	var out []StationInfo
	for _, h := range hits[:min(len(hits), max)] {
		out = append(out, s.info(h.station))
	}
	return out
}

// rank is how well station i matches, lower is better.
func (s *Stations) rank(i int, query string) (rank int, ok bool) {
	h, name := &s.heads[i], s.folded[i]
	id := strings.ToLower(h.id)
	_, number, _ := strings.Cut(id, "/")
	rank = s.matchWords(i, id, query)
	switch {
	case rank < 0:
		return 0, false
	case query == id || query == number:
		rank = 0
	case query == name:
		rank = 1
	case strings.HasPrefix(name, query):
		rank = 2
	}
	rank *= 2
	if h.subordinate() {
		rank++
	}
	return rank, true
}

// matchWords is 3 where every word of the query begins a word of the name, 4 where every word is
// found in name, id or country, else −1.
func (s *Stations) matchWords(i int, id, query string) int {
	rank := 3
	name := s.folded[i]
	for _, w := range strings.Fields(query) {
		if strings.HasPrefix(name, w) || strings.Contains(name, " "+w) {
			continue
		}
		rank = 4
		if !strings.Contains(name, w) && !strings.Contains(id, w) &&
			!strings.Contains(fold(s.tables[tableCountries][s.heads[i].country]), w) {
			return -1
		}
	}
	return rank
}

// plain are Latin letters without their marks.
var plain = func() map[rune]string {
	m := map[rune]string{'æ': "ae", 'œ': "oe", 'ß': "ss", 'þ': "th"}
	for base, marked := range map[string]string{
		"a": "àáâãäåāăą", "c": "çćĉċč", "d": "ďđð", "e": "èéêëēĕėęě", "g": "ĝğġģ", "h": "ĥħ",
		"i": "ìíîïĩīĭįı", "j": "ĵ", "k": "ķ", "l": "ĺļľŀł", "n": "ñńņňŋ", "o": "òóôõöøōŏő",
		"r": "ŕŗř", "s": "śŝşšș", "t": "ţťŧț", "u": "ùúûüũūŭůűų", "w": "ŵ", "y": "ýÿŷ", "z": "źżž",
	} {
		for _, r := range marked {
			m[r] = base
		}
	}
	return m
}()

// fold writes text in lower case without accents; anything but letters, figures and - is a space.
func fold(text string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(text) {
		switch p, marked := plain[r]; {
		case marked:
			b.WriteString(p)
		case unicode.Is(unicode.Mn, r): // a mark of its own
		case unicode.IsLetter(r), unicode.IsDigit(r), strings.ContainsRune("-_/", r):
			b.WriteRune(r)
		default:
			b.WriteByte(' ')
		}
	}
	return b.String()
}

// Near gives the stations nearest to p, at most max of them, nearest first, with their distances
// in metres along the geodesic (C. Karney, Algorithms for geodesics, 2013). Nothing is near a
// point that is not finite or not on the globe.
func (s *Stations) Near(p orb.Point, max int) []StationInfo {
	if !(math.Abs(p.Lon()) <= 360 && math.Abs(p.Lat()) <= 90) || max <= 0 {
		return nil
	}
	type hit struct {
		distance float64
		station  int
	}
	byDistance := func(a, b hit) int {
		return cmp.Or(cmp.Compare(a.distance, b.distance), cmp.Compare(a.station, b.station))
	}
	hits := make([]hit, len(s.heads))
	for i := range s.heads {
		hits[i] = hit{chord(p, orb.Point{s.heads[i].lon, s.heads[i].lat}), i}
	}
	slices.SortFunc(hits, byDistance)
	keep := min(len(hits), max)
	// The sphere is off by 0.6 % at most: take in whatever the ellipsoid may bring nearer.
	for keep > 0 && keep < len(hits) && hits[keep].distance < hits[min(max, len(hits))-1].distance*1.02 {
		keep++
	}
	hits = hits[:keep]
	for i := range hits {
		h := &s.heads[hits[i].station]
		geodesic.WGS84.Inverse(p.Lat(), p.Lon(), h.lat, h.lon, &hits[i].distance, nil, nil)
	}
	slices.SortFunc(hits, byDistance)
	var out []StationInfo
	for _, h := range hits[:min(keep, max)] {
		info := s.info(h.station)
		info.DistanceM = h.distance
		out = append(out, info)
	}
	return out
}

// chord is the straight distance between two points on a unit sphere, which orders them as the
// great circle does.
func chord(a, b orb.Point) float64 {
	sinLat, sinLon := math.Sin((a.Lat()-b.Lat())/2*deg), math.Sin((a.Lon()-b.Lon())/2*deg)
	return 2 * math.Sqrt(sinLat*sinLat+math.Cos(a.Lat()*deg)*math.Cos(b.Lat()*deg)*sinLon*sinLon)
}
