//go:build !js

package cli

import (
	"bytes"
	"fmt"
	"io"
	"time"

	"keelroom/hazards/tide"
)

// maxTideDays is how many days one table may hold: ten years.
const maxTideDays = 3653

// runTide writes high and low waters.
func runTide(args []string, out, diag io.Writer) error {
	f := flags("tide")
	from := f.String("from", "", "the first day, as 2026-07-01")
	days := f.Int("days", 0, "how many days")
	zone := f.String("zone", "", "IANA time zone; the station's own, else UTC")
	if err := f.Parse(args); err != nil {
		return err
	}
	switch {
	case f.NArg() != 1:
		return fmt.Errorf("%d stations after the flags; one is wanted", f.NArg())
	case *days < 1 || *days > maxTideDays:
		return fmt.Errorf("-days %d; 1 to %d are wanted", *days, maxTideDays)
	}
	port, err := findPort(f.Arg(0))
	if err != nil {
		return err
	}
	span, err := newDays(*from, *days, *zone, port.zone)
	if err != nil {
		return err
	}
	return writeTide(port, span, out, diag)
}

// days are local days, from midnight to midnight.
type days struct {
	from, to time.Time
	count    int
	zone     *time.Location
}

// newDays reads the flags; the zone falls back on the station's own.
func newDays(from string, count int, zone, own string) (d days, err error) {
	if zone == "" {
		zone = own
	}
	if zone == "" {
		zone = "UTC"
	}
	d.count = count
	if d.zone, err = time.LoadLocation(zone); err != nil || zone == "Local" {
		return d, fmt.Errorf("-zone %q; an IANA zone such as Europe/London is wanted", zone)
	}
	if d.from, err = time.ParseInLocation(time.DateOnly, from, d.zone); err != nil {
		return d, fmt.Errorf("-from %q; a day such as 2026-07-01 is wanted", from)
	}
	d.to = d.from.AddDate(0, 0, count)
	return d, nil
}

// writeTide writes the table, and on diag what it rests on.
func writeTide(p port, d days, out, diag io.Writer) error {
	begin, end, _ := p.tide.Covers()
	if !d.from.Before(end) || !begin.Before(d.to) {
		return fmt.Errorf("the heights of %s are known from %s to %s only, which is none of the days asked for",
			p.name, clock(begin, d.zone), clock(end, d.zone))
	}
	var table bytes.Buffer
	if err := tide.WriteCSV(&table, p.tide, d.from, d.count, d.zone); err != nil {
		return err
	}
	fmt.Fprintf(diag, "station: %s\nheights: metres above %s\nmethod: %s\ntimes: %s\n", p.name, p.datum, p.tide.Describe(), d.zone)
	for _, note := range p.notes {
		fmt.Fprintln(diag, note)
	}
	if begin.After(d.from) || end.Before(d.to) {
		fmt.Fprintf(diag, "warning: heights are known from %s to %s only; the other days asked for are not complete\n",
			clock(begin, d.zone), clock(end, d.zone))
	}
	if p.tide.Method() == tide.MethodTideless {
		fmt.Fprintln(diag, "warning: this water has no tide, so no high and low waters")
	}
	_, err := out.Write(table.Bytes())
	return err
}

func clock(t time.Time, zone *time.Location) string { return t.In(zone).Format(time.RFC3339) }

// port is a place with a tide, and what is to be said about it.
type port struct {
	name, zone, datum string
	tide              tide.Tide
	notes             []string
}

func fromStation(st *tide.Station) (port, error) {
	t, err := st.Tide()
	if err != nil {
		return port{}, fmt.Errorf("%s: %w", st.ID, err)
	}
	p := port{name: fmt.Sprintf("%s, %s (%s)", st.Name, st.Country, st.ID), zone: st.TimeZone, datum: stationDatum(st), tide: t}
	for _, n := range []struct{ name, text string }{
		{"note", st.Note}, {"reference", st.Reference}, {"source", st.Source}, {"licence", st.Licence}, {"attribution", st.Attribution},
	} {
		if n.text != "" {
			p.notes = append(p.notes, n.name+": "+n.text)
		}
	}
	return p, nil
}

func stationDatum(st *tide.Station) string {
	if st.DatumEstimated {
		return st.Datum + ", worked out from the gauge's own record: a chart's may differ by a few decimetres"
	}
	return st.Datum
}

func fromFile(path string) (port, error) {
	f, err := readTide(path)
	if err != nil {
		return port{}, err
	}
	t, err := f.make()
	if err != nil {
		return port{}, named(path, err)
	}
	p := port{name: f.source.Station, zone: f.zone, datum: datumName(f.source.DatumOf()), tide: t}
	if p.name == "" {
		p.name = path
	}
	if f.source.AdjustM != 0 {
		p.notes = append(p.notes, fmt.Sprintf("adjusted: %+.2f m added to every height", f.source.AdjustM))
	}
	return p, nil
}

func datumName(verdat int) string {
	switch name, ok := tide.VERDATName(verdat); {
	case ok:
		return name
	case verdat == 0:
		return "a datum that the file does not name"
	}
	return fmt.Sprintf("the vertical datum number %d of IHO S-57", verdat)
}
