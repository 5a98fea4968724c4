// Command keelroom is the whole program, built twice from one package: for the
// browser (GOOS=js), where it is the screen and the worker that checks, and for
// the machine, where it serves the app and checks plans on the command line.
//
//	keelroom serve [-addr localhost:8000]
//	keelroom site [-base /path/] FOLDER
//	keelroom check -chart PATH [-chart PATH ...] PLAN.geojson
//	keelroom tide -from 2026-07-01 -days 7 [-zone IANA] STATION
//
// A planning aid, not a chart.
package main
