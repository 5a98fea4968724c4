package entry

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"github.com/paulmach/orb"
)

// Place is a position as it was read. Read says how, for the line beside the field.
type Place struct {
	At   orb.Point
	Read string
}

const positionExample = `type it as 54°12.34'N 010°05.60'E`

// Position reads a position in degrees and decimal minutes, in degrees, minutes and
// seconds, or in decimal degrees. With the letters N, S, E, W the two may come in
// any order, each letter before or behind its figures; without letters only decimal
// degrees are read, latitude first, and Read says so.
func Position(text string) (Place, error) {
	s := strings.ToUpper(tidy(text))
	switch {
	case s == "":
		return Place{}, errors.New("nothing typed: " + positionExample)
	case len(s) > mostText:
		return Place{}, errors.New("that is too long for a position: " + positionExample)
	}
	tokens, err := lex(s)
	if err != nil {
		return Place{}, err
	}
	first, second, err := halves(tokens)
	if err != nil {
		return Place{}, err
	}
	a, err := angle(first)
	if err != nil {
		return Place{}, err
	}
	b, err := angle(second)
	if err != nil {
		return Place{}, err
	}
	return place(a, b)
}

// place puts two angles together to a position.
func place(a, b coordinate) (Place, error) {
	read := "read as "
	switch {
	case a.letter == 0:
		if a.deg < -90 || a.deg > 90 {
			return Place{}, fmt.Errorf("latitude comes first, and %s is none: type letters, as 54.2057 N 10.0933 E", figure(a.deg, 7))
		}
		a.letter, b.letter = 'N', 'E'
		read = "latitude first: read as "
	case northSouth(a.letter) == northSouth(b.letter):
		which := "longitudes"
		if northSouth(a.letter) {
			which = "latitudes"
		}
		return Place{}, errors.New("these are two " + which + ": " + positionExample)
	case northSouth(b.letter):
		a, b = b, a
	}
	at := orb.Point{b.signed(), a.signed()}
	switch {
	case math.Abs(at.Lat()) > 90:
		return Place{}, fmt.Errorf("latitude %s is beyond the pole: %s", figure(math.Abs(at.Lat()), 7), positionExample)
	case math.Abs(at.Lon()) > 180:
		return Place{}, fmt.Errorf("longitude %s is beyond 180 degrees: %s", figure(math.Abs(at.Lon()), 7), positionExample)
	}
	return Place{at, read + FormatPosition(at)}, nil
}

// coordinate is a latitude or a longitude; letter is 0 where none was typed.
type coordinate struct {
	deg    float64
	letter byte
}

func northSouth(letter byte) bool { return letter == 'N' || letter == 'S' }

func (c coordinate) signed() float64 {
	if c.letter == 'S' || c.letter == 'W' {
		return 0 - c.deg
	}
	return c.deg
}

// FormatPosition writes a position in degrees and decimal minutes, to a thousandth
// of a minute, which is 2 m.
func FormatPosition(at orb.Point) string {
	return formatAngle(at.Lat(), 2, "N", "S") + " " + formatAngle(at.Lon(), 3, "E", "W")
}

func formatAngle(deg float64, width int, plus, minus string) string {
	letter := plus
	if deg < 0 {
		letter = minus
	}
	thousandths := int64(math.Round(math.Abs(deg) * 60000))
	return fmt.Sprintf("%0*d°%06.3f'%s", width, thousandths/60000, float64(thousandths%60000)/1000, letter)
}
