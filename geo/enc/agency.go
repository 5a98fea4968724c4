package enc

import (
	_ "embed"
	"strconv"
	"strings"
)

// agencies lists the producers by their codes. Source: IHO S-62, as listed in
// s57agencies.csv of GDAL 3.6.2 (MIT/X), code and name of each line.
//
//go:embed agencies.txt
var agencies string

// agencyName is the name of a producer, "" for a code that is not listed.
func agencyName(code int) string {
	for line := range strings.Lines(agencies) {
		if number, name, ok := strings.Cut(line, " "); ok && number == strconv.Itoa(code) {
			return strings.TrimSpace(name)
		}
	}
	return ""
}
