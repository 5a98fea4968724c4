//go:build js

package main

import (
	"errors"
	"fmt"
	"syscall/js"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app"
	"keelroom/hazards/plan"
)

// runScreen shows the screen, for ever.
func runScreen() {
	screen := func() ui.Composer { return app.NewScreen(engine{}, ui.Getenv("GOAPP_VERSION")) }
	ui.Route("/", screen)
	ui.Route("/index.html", screen)
	ui.RunWhenOnBrowser()
}

// engine asks a worker of its own.
type engine struct{}

// CheckDemo starts the worker, has the demo day checked, and ends the worker.
func (engine) CheckDemo(progress func(string)) (app.Day, error) {
	worker := js.Global().Get("Worker").New(ui.Getenv("GOAPP_STATIC_RESOURCES_URL") + "/engine.js")
	defer worker.Call("terminate")
	answers := make(chan js.Value, 16)
	told := js.FuncOf(func(_ js.Value, args []js.Value) any {
		answers <- args[0].Get("data")
		return nil
	})
	failed := js.FuncOf(func(_ js.Value, args []js.Value) any {
		answers <- js.ValueOf(map[string]any{"error": "the checking part stopped: " + text(args[0].Get("message"))})
		return nil
	})
	defer told.Release()
	defer failed.Release()
	worker.Set("onmessage", told)
	worker.Set("onerror", failed)
	worker.Call("postMessage", map[string]any{"module": js.Global().Get("keelroomModule")})
	for {
		switch a := <-answers; {
		case a.Get("ready").Truthy():
			worker.Call("postMessage", "demo")
		case a.Get("progress").Truthy():
			progress(a.Get("progress").String())
		case a.Get("report").Truthy():
			return readDay(a.Get("plan").String(), a.Get("report").String())
		default:
			return app.Day{}, errors.New(text(a.Get("error")))
		}
	}
}

func readDay(planFile, report string) (day app.Day, err error) {
	if day.Plan, err = plan.Decode([]byte(planFile)); err != nil {
		return day, fmt.Errorf("the plan: %w", err)
	}
	if day.Report, err = plan.DecodeReport([]byte(report)); err != nil {
		return day, fmt.Errorf("the report: %w", err)
	}
	return day, nil
}
