//go:build !js

package cli

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"keelroom/geo/geojson"
	"keelroom/hazards"
	"keelroom/hazards/plan"
	"keelroom/hazards/tide"
	"keelroom/hazards/tide/stationdata"
)

// findPort finds a port: a JSON file, or a name or id of the built-in list.
func findPort(text string) (port, error) {
	if isTideFile(text) {
		return fromFile(text)
	}
	list, err := tide.LoadStations(stationdata.Bytes)
	if err != nil {
		return port{}, fmt.Errorf("the built-in station list: %w", err)
	}
	st, err := findStation(list, text)
	if err != nil {
		return port{}, err
	}
	return fromStation(st)
}

func isTideFile(text string) bool {
	if ext := filepath.Ext(text); ext == ".json" || ext == ".geojson" {
		return true
	}
	info, err := os.Stat(text)
	return err == nil && info.Mode().IsRegular()
}

// mostListed is how many stations an error lists.
const mostListed = 30

// findStation finds the one station meant: by id, by its whole name, or as the
// only one that the words fit.
func findStation(list *tide.Stations, text string) (*tide.Station, error) {
	if st, ok := list.Station(text); ok {
		return st, nil
	}
	found := list.Search(text, list.Len())
	meant := slices.DeleteFunc(slices.Clone(found), func(s tide.StationInfo) bool { return !strings.EqualFold(s.Name, text) })
	if len(meant) == 0 {
		meant = found
	}
	switch len(meant) {
	case 0:
		return nil, fmt.Errorf("no station %q in the built-in list of %d; a name, an id or a JSON file is wanted", text, list.Len())
	case 1:
		st, _ := list.Station(meant[0].ID)
		return st, nil
	}
	return nil, severalStations(text, meant)
}

func severalStations(text string, meant []tide.StationInfo) error {
	lines := []string{fmt.Sprintf("%q is %d stations; the id of one is wanted:", text, len(meant))}
	for _, s := range meant[:min(len(meant), mostListed)] {
		lines = append(lines, fmt.Sprintf("  %s  %s, %s (%.3f, %.3f)", s.ID, s.Name, s.Country, s.Position[0], s.Position[1]))
	}
	if more := len(meant) - mostListed; more > 0 {
		lines = append(lines, fmt.Sprintf("  and %d more", more))
	}
	return errors.New(strings.Join(lines, "\n"))
}

// tideFile is what a file says of a tide.
type tideFile struct {
	source *plan.TideSource
	zone   string // of the plan, if the file is one
	whole  bool   // the file is a plan
}

// readTide reads the tide of a file: a plan's `tide` member, an object that
// holds one under that name, or a whole plan file, whose zone it then takes.
func readTide(path string) (f tideFile, err error) {
	b, err := readUpTo(path, plan.MaxBytes)
	if err != nil {
		return f, err
	}
	p, whole, err := decodeTide(bytes.TrimPrefix(b, []byte("\ufeff")))
	if err != nil {
		return f, named(path, err)
	}
	if p.Tide == nil {
		return f, fmt.Errorf("%s: no tide; constituents, events, reference or level_m are wanted", path)
	}
	return tideFile{source: p.Tide, zone: p.ZoneName, whole: whole}, nil
}

// make makes the tide; errors name the place as the file has it.
func (f *tideFile) make() (tide.Tide, error) {
	t, err := hazards.NewTide(f.source)
	if err != nil && !f.whole {
		return nil, errors.New(strings.TrimPrefix(err.Error(), "plan.tide."))
	}
	return t, err
}

func decodeTide(b []byte) (p *plan.Plan, whole bool, err error) {
	whole, from, to, err := tideMember(b)
	switch {
	case err != nil:
	case whole:
		p, err = plan.DecodeDraft(b)
	default:
		p, err = decodeAlone(b, from, to)
	}
	return p, whole, err
}

// tideMember looks at the document, which is one JSON object: whether it is a
// whole plan, and which of its bytes are the tide: a member, or all.
func tideMember(b []byte) (whole bool, from, to int, err error) {
	r := geojson.NewReader(b)
	to = len(b)
	err = r.Object(func(key string) error {
		whole = whole || key == "plan"
		if key != "tide" {
			return nil
		}
		from = r.Offset()
		raw, err := r.Raw()
		to = from + len(raw)
		return err
	})
	if err == nil {
		err = r.End()
	}
	return whole, from, to, err
}

// decodeAlone decodes a tide as that of a plan which has nothing else. What
// stands before it in the file is blanked, so that lines stay what they are.
func decodeAlone(b []byte, from, to int) (*plan.Plan, error) {
	const before, after, path = `{"type":"FeatureCollection","features":[],"plan":{"version":1,"tide":`, "}}", "plan.tide"
	p, err := plan.DecodeDraft(slices.Concat([]byte(before), blank(b[:from]), b[from:to], []byte(after)))
	var wrong *plan.Errors
	if !errors.As(err, &wrong) {
		return p, err
	}
	for i := range wrong.List {
		at := &wrong.List[i]
		if at.Path = strings.TrimPrefix(strings.TrimPrefix(at.Path, path), "."); at.Path == "" {
			at.Path = "the tide"
		}
		if at.Line == 1 {
			at.Column = max(at.Column-len(before), 1)
		}
	}
	return nil, wrong
}

func blank(b []byte) []byte {
	return bytes.Map(func(r rune) rune {
		if r == '\n' {
			return r
		}
		return ' '
	}, b)
}
