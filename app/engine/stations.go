package engine

import (
	"encoding/json"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/hazards/tide"
)

// stations is the list of tide stations, fetched when it is first asked for.
type stations struct {
	jobs *jobs

	fetch func(path string) ([]byte, error)
	list  stationList
}

// stationsPath is the list of tide stations, beside the app.
const stationsPath = "stations.bin"

// mostStations is how many stations are listed.
const mostStations = 20

// StationsBody is stations that were found, best or nearest first.
type StationsBody struct {
	Stations []StationFound `json:"stations"`
}

// StationFound is one of them. Km is nil where no position was given; Kind is
// harmonic or secondary.
type StationFound struct {
	ID      string   `json:"id"`
	Name    string   `json:"name"`
	Country string   `json:"country,omitempty"`
	Km      *float64 `json:"km"`
	Datum   string   `json:"datum"`
	Kind    string   `json:"kind"`
}

// stationList is the list of tide stations, fetched when it is first wanted.
type stationList struct {
	list    *tide.Stations
	asked   bool
	arrived chan stationFile
}

type stationFile struct {
	data []byte
	err  error
}

// ready is the list; the first time it is fetched, and the request
// waits while others are answered.
func (ss *stations) ready(j *job) (*tide.Stations, error) {
	if ss.list.list != nil {
		return ss.list.list, nil
	}
	if err := ss.jobs.progress(j, "Fetching the list of tide stations."); err != nil {
		return nil, err
	}
	if !ss.list.asked {
		ss.list.asked = true
		go func() { ss.list.arrived <- ss.fetchList() }()
	}
	return nil, errWaits
}

func (ss *stations) fetchList() (f stationFile) {
	defer func() {
		if r := recover(); r != nil {
			f.err = fmt.Errorf("fetching it stopped: %v", r)
		}
		ss.jobs.ring()
	}()
	f.data, f.err = ss.fetch(stationsPath)
	return f
}

// take takes the list in if it has arrived.
func (ss *stations) take() {
	select {
	case f := <-ss.list.arrived:
		ss.arrived(f)
	default:
	}
}

// arrived takes the list in, and goes on with what waited for it.
func (ss *stations) arrived(f stationFile) {
	ss.list.asked = false
	var list *tide.Stations
	err := f.err
	if err == nil {
		list, err = tide.LoadStations(f.data)
	}
	ss.list.list = list
	for _, j := range ss.jobs.goOn(err == nil) {
		ss.jobs.post(j, Reply{State: Failed, Words: "The list of tide stations cannot be had: " + err.Error() + ". Try again when the network is there, or type a tide table."})
	}
}

// find searches by words, or by a position.
func (ss *stations) find(j *job) error {
	at, placed, err := positionOf(j)
	if err != nil {
		return err
	}
	if j.Text == "" && !placed {
		return &failure{words: "A name, or a position, is wanted to look for a tide station."}
	}
	list, err := ss.ready(j)
	if err != nil {
		return err
	}
	found := list.Near(at, mostStations)
	if j.Text != "" {
		found = list.Search(j.Text, mostStations)
	}
	body := StationsBody{Stations: []StationFound{}}
	for _, info := range found {
		body.Stations = append(body.Stations, stationFound(list, info, at, placed))
	}
	return ss.jobs.done(j, body, nil)
}

func stationFound(list *tide.Stations, info tide.StationInfo, at orb.Point, placed bool) StationFound {
	out := StationFound{ID: info.ID, Name: info.Name, Country: info.Country, Kind: "harmonic"}
	if st, ok := list.Station(info.ID); ok {
		out.Datum = st.Datum
	}
	if info.Subordinate {
		out.Kind = "secondary"
	}
	if placed {
		km := math.Round(geo.DistanceM(at, info.Position)/100) / 10
		out.Km = &km
	}
	return out
}

// positionOf is the position of a request, if it has one.
func positionOf(j *job) (at orb.Point, placed bool, err error) {
	switch {
	case j.Lon == nil && j.Lat == nil:
		return orb.Point{math.NaN(), math.NaN()}, false, nil
	case j.Lon == nil || j.Lat == nil || !(math.Abs(*j.Lon) <= 180 && math.Abs(*j.Lat) <= 90):
		return at, false, &failure{words: "The position is none: a longitude within 180 and a latitude within 90 degrees are wanted."}
	}
	return orb.Point{*j.Lon, *j.Lat}, true, nil
}

// StationBody is a station ready for a plan: Tide is the plan's member `tide`.
// Attribution must be shown with what is made from it.
type StationBody struct {
	Tide        json.RawMessage `json:"tide"`
	ID          string          `json:"id"`
	Name        string          `json:"name"`
	DatumName   string          `json:"datum_name"`
	Source      string          `json:"source"`
	Licence     string          `json:"licence"`
	Attribution string          `json:"attribution"`
	Notes       []string        `json:"notes"`
}
