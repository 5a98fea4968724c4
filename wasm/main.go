//go:build !js

package main

import (
	"os"

	"keelroom/wasm/cli"
)

func main() { os.Exit(cli.Run(os.Args[1:], os.Stdout, os.Stderr)) }
