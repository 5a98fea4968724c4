// Package engine answers the requests of a screen: charts are taken in and
// drawn, plans checked, departures swept, tide stations found.
//
// # Model
//
// A [Service] runs on one goroutine, beside an event loop that hands it requests
// ([Service.Handle]) and takes replies ([Host]). It keeps the decoded charts and
// what they were asked (hazards.Session), and works on one request at a time:
// the newest of a kind wins, short ones go before long ones, and at least every
// ten milliseconds the event loop gets a turn, so that a newer request is heard.
// What is done with a request stands beside its kind ([Request]).
//
// # Messages
//
// A message is a head of JSON ([EncodeRequest], [EncodeReply]) and beside it
// files and texts, which whoever carries it hands on without looking into them.
// Times are Unix seconds, positions longitude and latitude in degrees on WGS 84,
// depths metres, positive down, drying heights negative. Two texts have formats
// of their own: a drawing ([Draw]) and a day ([Day]).
//
// # Rules
//
// The package infers no rule of the trade: it asks package hazards. A mistake in
// it ends one request with a reply that says so, not the program.
//
// # Out of scope
//
// What carries the messages, storage, and everything that touches a browser.
package engine
