// Package cli is the program on the command line: serve and site give the app to
// browsers, check and tide answer on standard output.
//
// A command writes its answer only when it succeeds; what people should know goes to
// standard error, and the exit status says whether it did.
package cli
