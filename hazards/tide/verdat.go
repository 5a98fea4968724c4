package tide

// verdat are the numbers of S-57's attribute VERDAT (IHO S-57, appendix A, chapter 2, vertical
// datum) for the names that tide lists use. A name that stands for no one level has none.
var verdat = map[string]int{
	"MLWS": 1, "MSL": 3, "MLW": 5, "NLLW": 11, "MLLW": 12, "MHW": 16, "MHWS": 17, "MHHW": 21,
	"LAT": 23, "LLWLT": 27, "HHWLT": 28, "HAT": 30,
}

// VERDATOf is the number in S-57's list of vertical datums of a datum's name, 0 where it has none.
func VERDATOf(name string) int { return verdat[name] }

// VERDATName is the name for a number of S-57's list of vertical datums, as used here; ok is false
// for numbers that no tide list uses.
func VERDATName(number int) (name string, ok bool) {
	for n, v := range verdat {
		if v == number {
			return n, true
		}
	}
	return "", false
}

// LevelM is a tidal level (one of LevelNames, or the datum's own name) in metres above the
// station's datum. ok is false where it is not known. A subordinate station's high and low water
// levels are its reference's with its differences applied: both are means of waters that the
// differences turn from the one to the other. Its extremes and its mean sea level are not known.
func (st *Station) LevelM(name string) (levelM float64, ok bool) {
	if name == st.Datum {
		return 0, true
	}
	h := &st.list.heads[st.index]
	if !h.subordinate() {
		return st.list.levelM(st.index, name)
	}
	d := h.low
	switch name {
	case "MHW", "MHHW", "MHWS":
		d = h.high
	case "MLW", "MLLW", "MLWS":
	default:
		return 0, false
	}
	level, ok := st.list.levelM(h.reference, name)
	if !ok {
		return 0, false
	}
	if d.Factor != 0 {
		level *= d.Factor
	}
	return level + d.Metres, true
}

// VERDATLevelM is LevelM for a number of S-57's list: what turns heights above the station's datum
// into heights above a chart's, or the datum of charted clearances into one of tides.
func (st *Station) VERDATLevelM(number int) (levelM float64, ok bool) {
	name, ok := VERDATName(number)
	if !ok {
		return 0, false
	}
	return st.LevelM(name)
}

func (s *Stations) levelM(i int, name string) (float64, bool) {
	h := &s.heads[i]
	at := 0
	for bit, n := range LevelNames {
		if h.levels&(1<<bit) == 0 {
			continue
		}
		if n == name {
			return float64(h.levelsMM[at]) * millimetre, true
		}
		at++
	}
	return 0, false
}
