package tide

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"
	_ "time/tzdata"
)

func listBytes(t testing.TB) []byte {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("stationdata", "stations.bin"))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func loadList(t testing.TB) *Stations {
	t.Helper()
	s, err := LoadStations(listBytes(t))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// TestStationList checks the whole list: every station makes a tide, has a zone that exists, a
// licence that allows its use, and an attribution.
func TestStationList(t *testing.T) {
	s := loadList(t)
	if s.Len() < 5500 {
		t.Errorf("%d stations; design.md expects about 5 800", s.Len())
	}
	zones := map[string]bool{}
	for i := range s.heads {
		st := s.station(i)
		if _, err := st.Tide(); err != nil {
			t.Fatal(err)
		}
		if st.Licence != "public domain" && st.Licence != "cc-by-4.0" || st.Attribution == "" || st.Source == "" {
			t.Errorf("%s: licence %q, source %q, attribution %q", st.ID, st.Licence, st.Source, st.Attribution)
		}
		if st.Datum == "" || st.Name == "" || st.Country == "" {
			t.Errorf("%s: datum %q, name %q, country %q", st.ID, st.Datum, st.Name, st.Country)
		}
		zones[st.TimeZone] = true
	}
	for z := range zones {
		if _, err := time.LoadLocation(z); err != nil || z == "" {
			t.Errorf("zone %q: %v", z, err)
		}
	}
}

// TestListAgainstReference: constants, datum and levels of the list are those of the reference
// files (NOAA CO-OPS, TICON-4, Kartverket), to the rounding of the list.
func TestListAgainstReference(t *testing.T) {
	s := loadList(t)
	for _, file := range references {
		var ref struct {
			refStation
			Station, Attribution string
			Latitude, Longitude  float64
			ChartDatum           string             `json:"chart_datum"`
			Datums               map[string]float64 `json:"datums_m_above_station_zero"`
		}
		readJSON(t, file, &ref)
		st, ok := s.Station(ref.Station)
		if !ok {
			t.Errorf("%s is not in the list", ref.Station)
			continue
		}
		if st.Name != ref.Name || st.Datum != ref.ChartDatum || st.Attribution != ref.Attribution {
			t.Errorf("%s: name %q, datum %q, attribution %q", ref.Station, st.Name, st.Datum, st.Attribution)
		}
		if math.Abs(st.Position.Lon()-ref.Longitude) > 1e-5 || math.Abs(st.Position.Lat()-ref.Latitude) > 1e-5 {
			t.Errorf("%s: position %v", ref.Station, st.Position)
		}
		z0, cs, ok := st.Constituents()
		if !ok || math.Abs(z0-ref.Z0) > 0.0011 {
			t.Errorf("%s: z0 %g, want %g", ref.Station, z0, ref.Z0)
		}
		if mhw, ok := st.LevelM("MHW"); !ok || math.Abs(mhw-(ref.Datums["MHW"]-ref.Datums[ref.ChartDatum])) > 0.0011 {
			t.Errorf("%s: MHW %g, %v above its datum", ref.Station, mhw, ok)
		}
		checkConstants(t, ref.refStation, cs, st.Source)
	}
}

// checkConstants compares the list's constants with the reference's. TICON's four phases are
// turned and two of its constituents are left out, as stationgen tells.
func checkConstants(t *testing.T, ref refStation, got []Constituent, source string) {
	t.Helper()
	have := map[string]Constituent{}
	for _, c := range got {
		have[c.Name] = c
	}
	turns := map[string]float64{"2MK5": 90, "2MO5": -90, "SGM": 180, "M1": 90}
	for _, want := range ref.Constituents {
		if source == "TICON-4" && (want.Name == "T3" || want.Name == "R3") {
			if _, there := have[want.Name]; there {
				t.Errorf("%s: %s is in the list", ref.Name, want.Name)
			}
			continue
		}
		if source == "TICON-4" {
			want.Phase += turns[want.Name]
		}
		c := have[want.Name]
		offDeg := math.Abs(math.Remainder(c.PhaseDeg-want.Phase, 360))
		// By half a step, and by a phase that turns it 0.1 mm or is as the source rounds it.
		if math.Abs(c.AmplitudeM-want.Amplitude) > 5.1e-5 || c.AmplitudeM > 0 && offDeg > 0.0051 && c.AmplitudeM*offDeg*math.Pi/180 > 1.001e-4 {
			t.Errorf("%s: %v, want %v", ref.Name, c, want)
		}
	}
}

func TestSubordinate(t *testing.T) {
	s := loadList(t)
	// NOAA's published differences: Nonopapa on Nawiliwili, HW −16 min × 0.77, LW −11 min × 0.77.
	st, ok := s.Station("NOAA/1610367")
	if !ok || !st.Subordinate || st.Reference != "noaa/1612340" || st.Datum != "MLLW" || st.VERDAT != 12 {
		t.Fatalf("%+v, %v", st, ok)
	}
	high, low, ok := st.Differences()
	if !ok || high != (Difference{Minutes: -16, Factor: 0.77}) || low != (Difference{Minutes: -11, Factor: 0.77}) {
		t.Errorf("differences %v, %v", high, low)
	}
	tide, err := st.Tide()
	if err != nil || tide.Method() != MethodSecondary {
		t.Fatal(tide, err)
	}
	ref, _ := s.Station(st.Reference)
	refMHW, _ := ref.LevelM("MHW")
	if mhw, ok := st.VERDATLevelM(16); !ok || math.Abs(mhw-0.77*refMHW) > 1e-9 {
		t.Errorf("MHW %g, %v; its reference's is %g", mhw, ok, refMHW)
	}
	if _, ok := st.LevelM("HAT"); ok {
		t.Error("HAT known at a subordinate station")
	}
	if _, _, ok := st.Constituents(); ok {
		t.Error("a subordinate station has constituents")
	}
}

// TestVERDAT checks the numbers against the IHO's list (S-57, appendix A, attribute 185, as in the
// code table of Debian's gdal-data 3.6.2, which ends at 29; 30 from memory).
func TestVERDAT(t *testing.T) {
	names := map[int]string{1: "mean low water springs", 3: "mean sea level", 5: "mean low water", 11: "nearly lowest low water",
		12: "mean lower low water", 16: "mean high water", 17: "mean high water springs", 21: "mean higher high water",
		23: "lowest astronomical tide", 27: "lower low water large tide", 28: "higher high water large tide", 30: "highest astronomical tide"}
	initials := func(text string) (out string) {
		for _, w := range strings.Fields(strings.ToUpper(text)) {
			out += w[:1]
		}
		return out
	}
	for n, v := range verdat {
		if initials(names[v]) != n {
			t.Errorf("%s: %d is %q", n, v, names[v])
		}
		if back, ok := VERDATName(v); !ok || back != n {
			t.Errorf("%d is %s, %v", v, back, ok)
		}
	}
	if VERDATOf("CD") != 0 || VERDATOf("STND") != 0 {
		t.Error("a name that stands for no one level has a number")
	}
}

func TestSearch(t *testing.T) {
	s := loadList(t)
	for _, c := range []struct{ text, first string }{
		{"8443970", "noaa/8443970"},
		{"noaa/8443970", "noaa/8443970"},
		{"BOSTON", "noaa/8443970"},
		{"newlyn", "ticon/newlyn-new-gbr-bodc"},
		{"Alesund", "kartverket/AES"},
		{"ålesund", "kartverket/AES"},
		{"bodo norway", "kartverket/BOO"},
		{"bod", ""},
	} {
		got := s.Search(c.text, 5)
		if len(got) == 0 || c.first != "" && got[0].ID != c.first {
			t.Errorf("%q finds %v, want %s first", c.text, got, c.first)
		}
	}
	for _, none := range []string{"", "   ", "zzzzqqq", "\xff\xfe"} {
		if got := s.Search(none, 5); len(got) != 0 {
			t.Errorf("%q finds %v", none, got)
		}
	}
	if got := s.Search("a", 7); len(got) != 7 {
		t.Errorf("%d found, want 7", len(got))
	}
	if got := s.Search("boston", 0); len(got) != 0 {
		t.Errorf("%d found, want none", len(got))
	}
}

func TestNear(t *testing.T) {
	s := loadList(t)
	got := s.Near(orb.Point{-71.05, 42.355}, 4)
	if len(got) != 4 || got[0].ID != "noaa/8443970" || got[0].DistanceM > 300 {
		t.Fatalf("%v", got)
	}
	for i := 1; i < len(got); i++ {
		if got[i].DistanceM < got[i-1].DistanceM {
			t.Errorf("%v before %v", got[i-1], got[i])
		}
	}
	// Across the date line: from 179.9° W, Fiji's stations near 178.5° E are 170 km off, not 340 degrees.
	if far := s.Near(orb.Point{-179.9, -18.1}, 1); len(far) != 1 || far[0].DistanceM > 400e3 {
		t.Errorf("%v", far)
	}
	for _, p := range []orb.Point{{math.NaN(), 0}, {0, math.Inf(1)}, {0, 91}} {
		if got := s.Near(p, 3); got != nil {
			t.Errorf("near %v: %v", p, got)
		}
	}
}

// TestDamaged: a file cut short anywhere, or changed, is an error or a list, never a panic.
func TestDamaged(t *testing.T) {
	whole := listBytes(t)
	for _, n := range []int{0, 3, 8, 9, 100, 5000, 90000, 150000, 300000, len(whole) - 1} {
		if _, err := LoadStations(whole[:n]); err == nil || !strings.Contains(err.Error(), "station list") {
			t.Errorf("cut at %d: error %v", n, err)
		}
	}
	if _, err := LoadStations(append(append([]byte(nil), whole...), 0)); err == nil {
		t.Error("a byte too many is not noticed")
	}
}

// FuzzLoadStations: no bytes make it panic, and what it accepts can be used.
func FuzzLoadStations(f *testing.F) {
	f.Add([]byte(nil))
	f.Add([]byte(stationMagic))
	f.Add(smallList())
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := LoadStations(data)
		if err != nil {
			return
		}
		for i := range s.heads {
			st := s.station(i)
			if tide, err := st.Tide(); err == nil {
				tide.Least(day, day.Add(12*time.Hour))
			}
			st.LevelM("MHW")
		}
		s.Search("a", 3)
		s.Near(orb.Point{1, 2}, 3)
	})
}

// smallList is a list of two invented stations: Invented Haven, and Invented Quay on it.
func smallList() []byte {
	var b []byte
	str := func(texts ...string) {
		b = append(b, byte(len(texts)))
		for _, s := range texts {
			b = append(append(b, byte(len(s))), s...)
		}
	}
	b = append(b, stationMagic...)
	str("M2", "S2")
	str("Inventia")
	str("UTC")
	str("invented")
	str("public domain")
	str("Invented for tests")
	str("")
	str("LAT")
	b = append(b, 1, 2, 0, 1) // one set: M2, S2
	b = append(b, 2)          // two stations
	b = append(b, 2, 'H', 'a', 2, 'Q', 'u')
	b = append(b, 0, 3, 0, 0, 4, 'x', '/', 'a', '1', 1, '2') // ids: shared with the id before, with the name, and the rest
	b = append(b, make([]byte, 14)...)                       // seven columns of 0
	b = append(b, 2, 2, 6, 2)                                // positions
	b = append(b, 0, kindFactors)
	b = append(b, 0, 20, 10, 0x80, 0x0f, 0x80, 0x0f) // 10 and 5 minutes, factors 0.96
	b = append(b, 0, 0x80, 0x0f, 0, 3, 7, 0)         // set 0, z0 0.96 m, no levels, 3 years, 7 mm left out, no base
	b = append(b, 0xa0, 0x1f, 0xd0, 0x0f)            // amplitudes of 0.2 m and 0.1 m
	return append(b, 2, 1, 3, 4)                     // their phases, in steps of 0.05 and 0.1 degrees
}

func TestSmallList(t *testing.T) {
	s, err := LoadStations(smallList())
	if err != nil {
		t.Fatal(err)
	}
	st, ok := s.Station("x/a2")
	if !ok || st.Name != "Qu" || st.Reference != "x/a1" {
		t.Fatalf("%+v", st)
	}
	if ref, _ := s.Station("x/a1"); ref.Record != (Record{Years: 3, LeftOut: leftOutNames, LeftOutM: 0.007}) {
		t.Errorf("record %+v", ref.Record)
	}
	ref, _ := s.Station("x/a1")
	want := []Constituent{{"M2", 0.2, 347.15}, {"S2", 0.1, 38.6}} // 0x201 is odd: 257 steps back; 0x304: 386 steps on
	if _, cs, ok := ref.Constituents(); !ok || !slices.Equal(cs, want) {
		t.Errorf("%v, want %v", cs, want)
	}
	tide, err := st.Tide()
	if err != nil {
		t.Fatal(err)
	}
	if h, ok := tide.HeightM(day); !ok || h < 0.5 || h > 1.4 {
		t.Errorf("height %g, %v", h, ok)
	}
}

// FuzzDefine: no name makes it panic or define a constituent that is not a sane one.
func FuzzDefine(f *testing.F) {
	for _, n := range []string{"M2", "2MK5", "M(KS)2", "3(SM)N2", "((", "9M9N9S14", "K", "2", "λ2"} {
		f.Add(n)
	}
	f.Fuzz(func(t *testing.T, name string) {
		h, err := NewHarmonic(0, []Constituent{{name, 1, 0}})
		if err != nil {
			return
		}
		if v, ok := h.HeightM(day); !ok || math.IsNaN(v) || math.IsInf(v, 0) {
			t.Errorf("%q: %g, %v", name, v, ok)
		}
	})
}
