package entry

import (
	"errors"
	"fmt"
	"strings"
)

// OtherUnit says that a figure was typed in another unit. Converted is the same
// in the unit wanted, to be offered, rounded as Offer spells it.
type OtherUnit struct {
	Typed     string
	Wanted    string // the unit wanted, as "metres"
	Offer     string // as "0.91 m"
	Converted float64
}

// Error says what to type.
func (e *OtherUnit) Error() string {
	return fmt.Sprintf("%s: type %s; %s is %s", e.Typed, e.Wanted, e.Typed, e.Offer)
}

// quantity is what a field holds: its own unit, and others with the factor to it.
type quantity struct {
	wanted, symbol, example string
	own                     []string
	others                  map[string]float64
	refused                 map[string]string // units that are no factor, and why
	decimals                int
	least                   float64
	leastWhy                string
}

const (
	footM         = 0.3048
	nauticalMileM = 1852
	statuteMileM  = 1609.344
	usGallonL     = 3.785411784
	ukGallonL     = 4.54609
)

var length = quantity{
	wanted: "metres", symbol: "m", example: "1.5", decimals: 2, least: -12000, leastWhy: "that is deeper than any sea",
	own: []string{"m", "metre", "metres", "meter", "meters"},
	others: map[string]float64{
		"ft": footM, "'": footM, "foot": footM, "feet": footM, "in": footM / 12, `"`: footM / 12, "inch": footM / 12, "inches": footM / 12,
		"fm": 6 * footM, "ftm": 6 * footM, "fathom": 6 * footM, "fathoms": 6 * footM, "yd": 3 * footM, "yards": 3 * footM,
		"mm": 0.001, "cm": 0.01, "dm": 0.1, "km": 1000, "nm": nauticalMileM, "sm": nauticalMileM, "mi": statuteMileM,
	},
}

var speed = quantity{
	wanted: "knots", symbol: "kn", example: "12", decimals: 1, leastWhy: "a speed is not below 0",
	own: []string{"kn", "kt", "kts", "knot", "knots"},
	others: map[string]float64{
		"m/s": 3600.0 / nauticalMileM, "ms": 3600.0 / nauticalMileM, "km/h": 1000.0 / nauticalMileM, "kmh": 1000.0 / nauticalMileM, "kph": 1000.0 / nauticalMileM,
		"mph": statuteMileM / nauticalMileM, "mi/h": statuteMileM / nauticalMileM,
	},
	refused: map[string]string{"bft": beaufort, "bf": beaufort, "beaufort": beaufort, "f": beaufort, "force": beaufort},
}

const beaufort = "a Beaufort force is a range, not a speed: type the knots of the forecast"

var volume = quantity{
	wanted: "litres", symbol: "l", example: "120", decimals: 1, leastWhy: "there is no less than nothing in a tank",
	own: []string{"l", "litre", "litres", "liter", "liters", "ltr"},
	others: map[string]float64{
		"usgal": usGallonL, "gal(us)": usGallonL, "impgal": ukGallonL, "ukgal": ukGallonL, "gal(uk)": ukGallonL, "ml": 0.001, "m3": 1000,
	},
	refused: map[string]string{
		"gal": gallons, "gallon": gallons, "gallons": gallons,
		"kg": "litres are wanted, not a weight", "%": "litres are wanted, not a part of the tank",
	},
}

const gallons = "there are two gallons, of 3.785 l (US) and of 4.546 l (imperial): type litres"

var duration = quantity{
	wanted: "minutes", symbol: "min", example: "15", decimals: 1, least: -10080, leastWhy: "that is more than a week",
	own:    []string{"min", "mins", "minute", "minutes"},
	others: map[string]float64{"h": 60, "hr": 60, "hrs": 60, "hour": 60, "hours": 60, "s": 1.0 / 60, "sec": 1.0 / 60, "d": 1440},
	refused: map[string]string{
		"m": "m stands for metres: type minutes as a number",
		"'": "type minutes as a number",
	},
}

// Metres reads a length, a depth or a height, which may be negative.
func Metres(text string) (float64, error) { return length.read(text) }

// Knots reads a speed.
func Knots(text string) (float64, error) { return speed.read(text) }

// Litres reads an amount of fuel.
func Litres(text string) (float64, error) { return volume.read(text) }

// Minutes reads a time span, which may be negative.
func Minutes(text string) (float64, error) { return duration.read(text) }

func (q *quantity) read(text string) (float64, error) {
	s := tidy(text)
	number, unit, err := q.split(s)
	if err != nil {
		return 0, err
	}
	if why, ok := q.refused[unit]; ok {
		return 0, errors.New(why)
	}
	if factor, ok := q.others[unit]; ok {
		offer := figure(number*factor, q.decimals)
		v, _ := decimal(offer)
		return 0, &OtherUnit{Typed: s, Wanted: q.wanted, Offer: offer + " " + q.symbol, Converted: v}
	}
	if unit != "" && !contains(q.own, unit) {
		return 0, fmt.Errorf("%s is no unit that is read here: type %s, as %s", shown(unit), q.wanted, q.example)
	}
	switch {
	case number < q.least:
		return 0, fmt.Errorf("%s: %s", shown(s), q.leastWhy)
	case number > 1e9:
		return 0, fmt.Errorf("%s: that is too much", shown(s))
	}
	return number, nil
}

// split takes a figure and its unit apart. Units are compared in small letters.
func (q *quantity) split(s string) (number float64, unit string, err error) {
	if s == "" {
		return 0, "", fmt.Errorf("nothing typed: type %s, as %s", q.wanted, q.example)
	}
	if len(s) > mostText {
		return 0, "", fmt.Errorf("%s is too long: type %s, as %s", shown(s), q.wanted, q.example)
	}
	i := strings.LastIndexAny(s, "0123456789") + 1
	if strings.HasSuffix(strings.ToLower(s), "m3") {
		i = strings.LastIndexAny(s[:len(s)-2], "0123456789") + 1
	}
	number, ok := decimal(strings.ReplaceAll(strings.TrimSpace(s[:i]), "- ", "-"))
	if !ok {
		return 0, "", fmt.Errorf("%s is not a number: type %s, as %s", shown(s), q.wanted, q.example)
	}
	unit = strings.TrimSuffix(strings.ReplaceAll(strings.ToLower(s[i:]), " ", ""), ".")
	return number, unit, nil
}

func contains(list []string, s string) bool {
	for _, v := range list {
		if v == s {
			return true
		}
	}
	return false
}
