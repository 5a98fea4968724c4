package main

import (
	"errors"
	"fmt"
	"runtime"
	"time"

	"keelroom/app/engine"
	"keelroom/testdata/bench/growth/waters"
)

// worker is the host of an engine that loads one chart, as the app's worker does: it
// reads the files, draws the chart for the screen, and indexes it once it is asked.
type worker struct {
	service *engine.Service
	drawn   int
	err     error
}

func (w *worker) At(int) {}
func (w *worker) Turn()  {}

func (w *worker) Post(r engine.Reply) {
	switch {
	case r.State == engine.Progress:
	case r.State != engine.Done:
		w.err = fmt.Errorf("%s: %s: %s", r.Kind, r.State, r.Words)
		w.service.Stop()
	case r.Kind == engine.PutSet:
		for _, piece := range r.Drawing {
			w.drawn += len(piece)
		}
	default:
		w.service.Stop()
	}
}

// load gives the engine the one set of a folder and asks it about a place of it.
func load(folder string) (*measured, error) {
	m := &measured{}
	files, err := m.read(folder)
	if err != nil {
		return nil, err
	}
	w := &worker{}
	w.service = engine.New(w, func(string) ([]byte, error) { return nil, errors.New("there is no network") })
	begun, at := time.Now(), waters.At(1.5, 1.5)
	w.service.Handle(engine.Request{ID: 1, Kind: engine.PutSet, Set: "waters", Name: "waters", Files: files})
	w.service.Handle(engine.Request{ID: 2, Kind: engine.AskPlace, Lon: &at[0], Lat: &at[1]})
	files = nil
	w.service.Run()
	m.DecodeS = time.Since(begun).Seconds()
	var s runtime.MemStats
	runtime.ReadMemStats(&s)
	m.PeakMB, m.DrawnMB = float64(s.Sys)/1e6, float64(w.drawn)/1e6
	return m, w.err
}
