package engine

import (
	"fmt"

	"keelroom/hazards/plan"
	"keelroom/hazards/tide"
	"keelroom/hazards/words"
)

// one gives a station's tide for a plan.
func (ss *stations) one(j *job) error {
	list, err := ss.ready(j)
	if err != nil {
		return err
	}
	st, ok := list.Station(j.Text)
	if !ok {
		return &failure{words: fmt.Sprintf("There is no tide station %q in the list: choose one that the search shows.", j.Text)}
	}
	source, err := TideOf(list, st)
	if err != nil {
		return &failure{words: fmt.Sprintf("The station %s cannot be used: %v.", st.Name, err)}
	}
	return ss.jobs.done(j, StationBody{Tide: plan.EncodeTide(source), ID: st.ID, Name: st.Name, DatumName: datumOf(st),
		Source: st.Source, Licence: st.Licence, Attribution: st.Attribution, Notes: notesOf(st)}, nil)
}

func datumOf(st *tide.Station) string {
	if st.VERDAT == 0 {
		return st.Datum
	}
	return words.English.Datum(st.VERDAT)
}

// notesOf is what is to be known of a station.
func notesOf(st *tide.Station) []string {
	notes := []string{}
	if st.Note != "" {
		notes = append(notes, st.Note)
	}
	if st.DatumEstimated {
		notes = append(notes, "Its datum was worked out from the gauge's own record: a chart's may differ by a few decimetres.")
	}
	if st.VERDAT == 0 {
		notes = append(notes, "Its datum has no number in IHO S-57, so heights cannot be added to charted depths until you say how far it lies above the chart's.")
	}
	return notes
}

// TideOf is a station's tide as a plan has it, with what the list knows of the
// station: where it lies, its zone, and its tidal levels, from which the datum of
// charted heights follows whatever charts are open. A level without a number in
// S-57's list of vertical datums is left unknown: 0.
func TideOf(list *tide.Stations, st *tide.Station) (*plan.TideSource, error) {
	at := st.Position
	out := &plan.TideSource{Station: st.Name, Datum: st.VERDAT, Position: &at, ZoneName: st.TimeZone, Levels: levelsOf(st)}
	if z0, cs, ok := st.Constituents(); ok {
		harmonic(out, z0, cs, st.Record)
		return out, nil
	}
	high, low, ok := st.Differences()
	if !ok {
		return nil, fmt.Errorf("its constants cannot be read")
	}
	port, ok := list.Station(st.Reference)
	if !ok {
		return nil, fmt.Errorf("its reference port %s is not in the list", st.Reference)
	}
	z0, cs, ok := port.Constituents()
	if !ok {
		return nil, fmt.Errorf("the constants of its reference port %s cannot be read", st.Reference)
	}
	reference := &plan.TideSource{Station: port.Name, Datum: port.VERDAT}
	if st.VERDAT == 0 {
		reference.Datum = 0 // a port without a datum of its own would take that
	}
	harmonic(reference, z0, cs, port.Record)
	out.Secondary = &plan.Secondary{Reference: reference, High: correction(high), Low: correction(low)}
	return out, nil
}

// levelsOf are the tidal levels of a station that have a number in S-57's list.
func levelsOf(st *tide.Station) []plan.Level {
	var out []plan.Level
	for _, name := range tide.LevelNames {
		number := tide.VERDATOf(name)
		if m, ok := st.LevelM(name); ok && number != 0 && name != st.Datum {
			out = append(out, plan.Level{Datum: number, HeightM: m})
		}
	}
	return out
}

func harmonic(s *plan.TideSource, z0M float64, cs []tide.Constituent, record tide.Record) {
	s.Z0M, s.RecordYears = &z0M, float64(record.Years)
	if record.LeftOutM > 0 {
		s.LeftOut, s.LeftOutM = record.LeftOut, record.LeftOutM
	}
	for _, c := range cs {
		s.Constituents = append(s.Constituents, plan.Constituent{Name: c.Name, AmplitudeM: c.AmplitudeM, PhaseDeg: c.PhaseDeg})
	}
}

func correction(d tide.Difference) *plan.Correction {
	c := &plan.Correction{Minutes: d.Minutes}
	if d.Factor != 0 {
		c.Factor = &d.Factor
	}
	if d.Metres != 0 || d.Factor == 0 {
		c.Metres = &d.Metres
	}
	return c
}
