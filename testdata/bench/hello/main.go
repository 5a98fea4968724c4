// Program hello is the least app of the same framework: one line of text. The
// browser's figures are printed beside it, for scale. Natively it serves itself.
//
//	hello -addr localhost:8001 FOLDER   (FOLDER/web/app.wasm is itself, for js)
package main

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

type hello struct{ app.Compo }

// Render shows the line.
func (*hello) Render() app.UI { return app.H1().Text("Hello from the least app") }

func main() {
	app.Route("/", func() app.Composer { return &hello{} })
	app.RunWhenOnBrowser()
	serve()
}
