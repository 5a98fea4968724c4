package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"regexp"
	"sort"
	"strings"
	"time"
)

// station is one record of the database.
type station struct {
	ID, Kind, Type, Name, Country string
	Latitude, Longitude           float64
	TimeZone                      string `json:"timezone"`
	Source, Licence, Attribution  string
	Note                          string
	ChartDatum                    string `json:"chart_datum"`
	Datums                        map[string]float64
	Epoch                         struct{ Start, End string } // of the record that the levels rest on
	leftOutM                      float64                     // amplitudes that tidy left out, summed
	Offsets                       *struct {
		Reference string
		Height    struct {
			High, Low float64
			Type      string
		}
		Time struct{ High, Low float64 }
	}
	Constituents []constant
}

type constant struct {
	Name             string
	Amplitude, Phase float64
}

func (s *station) subordinate() bool { return s.Type == "subordinate" }

func readDump(r io.Reader) ([]station, error) {
	var all []station
	lines := bufio.NewScanner(r)
	lines.Buffer(nil, 1<<20)
	for n := 1; lines.Scan(); n++ {
		var s station
		if err := json.Unmarshal(lines.Bytes(), &s); err != nil {
			return nil, fmt.Errorf("line %d: %w", n, err)
		}
		all = append(all, s)
	}
	return all, lines.Err()
}

// leftOut counts what was left out, by reason.
type leftOut struct {
	reasons map[string][]string // ids
	notes   []string
}

func (l *leftOut) print(w io.Writer, all, kept int) {
	fmt.Fprintf(w, "%d records read, %d kept\n", all, kept)
	var reasons []string
	for r := range l.reasons {
		reasons = append(reasons, r)
	}
	sort.Strings(reasons)
	for _, r := range reasons {
		ids := l.reasons[r]
		fmt.Fprintf(w, "left out, %s: %d", r, len(ids))
		if len(ids) <= 20 {
			fmt.Fprintf(w, " (%s)", strings.Join(ids, ", "))
		}
		fmt.Fprintln(w)
	}
	counts := map[string]int{}
	for _, n := range l.notes {
		counts[n]++
	}
	var lines []string
	for n, c := range counts {
		lines = append(lines, fmt.Sprintf("%s: at %d stations", n, c))
	}
	sort.Strings(lines)
	for _, n := range lines {
		fmt.Fprintln(w, n)
	}
}

// choose splits the records into those to keep, in order of their ids, and the rest.
func choose(all []station) (kept []station, left *leftOut) {
	left = &leftOut{reasons: map[string][]string{}}
	references := map[string]bool{}
	for i := range all {
		if all[i].unfit() == "" && !all[i].subordinate() {
			references[all[i].ID] = true
		}
	}
	for i := range all {
		why := all[i].unfit()
		if why == "" && all[i].subordinate() && !references[all[i].Offsets.Reference] {
			why = "its reference was left out"
		}
		if why != "" {
			left.reasons[why] = append(left.reasons[why], all[i].ID)
			continue
		}
		kept = append(kept, all[i])
	}
	sort.Slice(kept, func(i, j int) bool { return kept[i].ID < kept[j].ID })
	return kept, left
}

// unfit says why a record is of no use, or "".
func (s *station) unfit() string {
	_, datumKnown := s.Datums[s.ChartDatum]
	_, meanKnown := s.Datums["MSL"]
	switch {
	case s.Kind != "tide":
		return "kind " + s.Kind + " (not a height)"
	case s.Licence != "public domain" && s.Licence != "cc-by-4.0":
		return "licence " + s.Licence
	case s.subordinate() && s.Offsets == nil:
		return "subordinate without differences"
	case s.subordinate() && s.Offsets.Height.Type == "ratio" && (s.Offsets.Height.High <= 0 || s.Offsets.Height.Low <= 0):
		return "subordinate with a factor of 0 or less"
	case !s.subordinate() && len(s.Constituents) == 0:
		return "no constituents"
	case s.ChartDatum == "":
		return "no datum"
	case !datumKnown || !meanKnown:
		return "height of mean sea level above its datum unknown"
	}
	return ""
}

// ticon is how the database names the source of most stations outside North America.
const ticon = "TICON-4"

// ticonTurns are degrees to add to TICON-4's phase lags to bring them to the usual arguments. Its
// analyses leave out the quarter turns of some; nothing in the data says so. Found by comparing
// its analyses with others of the same gauges in the same database (NOAA's, Kartverket's), with
// the differences in phase (usual less TICON's) and the number of pairs:
//
//	2MK5    91.6°, 15 Norwegian gauges; 93.3°, Anchorage
//	2MO5   -80.7°, Anchorage (0.98 times the amplitude)
//	SGM    175.6°, 56 Norwegian gauges; 176.5°, Anchorage
//	M1     109.5°, 672 American gauges; 69.4°, 21 Norwegian gauges
//
// The last is a quarter turn within what M1's own uncertainty allows. All other constituents that
// occur in two analyses of one gauge agree.
var ticonTurns = map[string]float64{"2MK5": 90, "2MO5": -90, "SGM": 180, "M1": 90}

// ticonUnknown are constituents of TICON-4 whose arguments are not published with the data, are not in the
// IHO list, and could not be found by comparison. Half of all are below 2 mm, the greatest 43 mm. What
// was left out of each station is in the list.
var ticonUnknown = map[string]bool{"T3": true, "R3": true}

// tidy turns phases to the usual arguments and drops what cannot be used. It says what it did.
func (s *station) tidy() (notes []string) {
	s.Note = plainNote(s.Note)
	if s.Source != ticon || s.subordinate() {
		return nil
	}
	usable := s.Constituents[:0:0]
	for _, c := range s.Constituents {
		if ticonUnknown[c.Name] {
			notes = append(notes, "left out, constituent "+c.Name+" of "+ticon+", whose argument is not known")
			s.leftOutM += c.Amplitude
			continue
		}
		if turn := ticonTurns[c.Name]; turn != 0 {
			notes = append(notes, fmt.Sprintf("turned by %+g°, constituent %s of %s", turn, c.Name, ticon))
			c.Phase += turn
		}
		usable = append(usable, c)
	}
	s.Constituents = usable
	return notes
}

// recordYears is how many whole years of record the levels rest on, 0 where that is not given. NOAA's
// is the epoch of its datums, to which shorter records are reduced, and says nothing of the record.
func (s *station) recordYears() int {
	start, err := time.Parse(time.DateOnly, s.Epoch.Start)
	end, err2 := time.Parse(time.DateOnly, s.Epoch.End)
	if s.Source != ticon || err != nil || err2 != nil || !end.After(start) {
		return 0
	}
	return int(math.Round(end.Sub(start).Hours() / 24 / 365.25))
}

var tag = regexp.MustCompile(`<[^>]*>`)

// plainNote takes tags and empty praise out of a note. Kartverket's note is its attribution again.
func plainNote(note string) string {
	n := strings.TrimSpace(strings.TrimPrefix(tag.ReplaceAllString(note, ""), "No obvious issues"))
	if strings.HasPrefix(n, "Tide and water-level data ©") {
		return ""
	}
	return n
}
