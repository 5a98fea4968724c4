//go:build !js

package main

import (
	"fmt"
	"io"
)

func runServe(_ []string, _, _ io.Writer) error { return fmt.Errorf("not yet") }
func runSite(_ []string, _, _ io.Writer) error  { return fmt.Errorf("not yet") }
func runTide(_ []string, _, _ io.Writer) error  { return fmt.Errorf("not yet") }
