//go:build !js

package cli

import (
	"errors"
	"flag"
	"fmt"
	"io"
	_ "time/tzdata" // zones do not depend on the machine
)

// Exit statuses.
const (
	statusOK    = 0
	statusError = 2
)

const usage = `keelroom checks a day afloat: depths at that hour's tide, limits, dangers, sea.
It is a planning aid, not a chart.

  keelroom serve [-addr localhost:8000]
        serve the app
  keelroom site [-base /path/] FOLDER
        write the app as static files for any web host
  keelroom check -chart PATH [-chart PATH ...] PLAN.geojson
        check a plan; the report is GeoJSON on standard output
        each PATH is one chart: a GeoJSON layer, a chart cell, or a folder or zip of them
        -track FILE and -soundings FILE write the track with its times and the charts'
        soundings too: as well-known text to a .wkt, as GeoJSON to a .geojson
  keelroom anchorages -chart PATH [-within lon,lat,nm | -box w,s,e,n] [-stay N] PLAN.geojson
        where to lie at anchor instead of the plan's stay N (1): places that every check of
        a stay passes, best first, as GeoJSON on standard output
  keelroom tide -from 2026-07-01 -days 7 [-zone IANA] STATION
        high and low waters as CSV
        STATION is a name or id of the built-in list, or a JSON file
`

// command is one of the program's commands: it writes its answer to out only
// when it succeeds, and what people should know to diag.
type command func(args []string, out, diag io.Writer) error

var commands = map[string]command{"check": runCheck, "anchorages": runAnchorages, "tide": runTide, "serve": runServe, "site": runSite}

// Run carries out a command: its answer goes to out, what people should know to diag. It
// returns the exit status.
func Run(args []string, out, diag io.Writer) int {
	if len(args) == 0 {
		fmt.Fprint(diag, usage)
		return statusError
	}
	if args[0] == "help" || args[0] == "-h" || args[0] == "-help" || args[0] == "--help" {
		return help("help", out, diag)
	}
	cmd, ok := commands[args[0]]
	if !ok {
		fmt.Fprintf(diag, "keelroom: no command %q\n\n%s", args[0], usage)
		return statusError
	}
	err := cmd(args[1:], out, diag)
	switch {
	case errors.Is(err, flag.ErrHelp):
		return help(args[0], out, diag)
	case err != nil:
		complain(diag, args[0], err)
		return statusError
	}
	return statusOK
}

// help writes the usage where it was asked for, and says so when it cannot.
func help(command string, out, diag io.Writer) int {
	if _, err := io.WriteString(out, usage); err != nil {
		complain(diag, command, err)
		return statusError
	}
	return statusOK
}

// flags makes a flag set that reports errors instead of printing them or
// ending the program.
func flags(name string) *flag.FlagSet {
	f := flag.NewFlagSet("keelroom "+name, flag.ContinueOnError)
	f.SetOutput(io.Discard)
	f.Usage = func() {}
	return f
}
