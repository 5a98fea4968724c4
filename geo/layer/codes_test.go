package layer

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"keelroom/geo/chart"
)

// codeTables is testdata/s57_s101_codes.json; its source line names the IHO
// S-101 Feature Catalogue 2.1.0 and the S-57 tables.
type codeTables struct {
	Source          string
	Objects         map[string]int      `json:"S57_object_codes"`
	Attributes      map[string]int      `json:"S57_attribute_codes"`
	S101Names       map[string]string   `json:"S101_names"`
	S101Attributes  map[string][]string `json:"S101_attributes"`
	Values          map[string][][2]any
	Licence         string
	Extract, Status string
}

func loadCodes(t *testing.T) (c codeTables) {
	t.Helper()
	data, err := os.ReadFile("testdata/s57_s101_codes.json")
	if err == nil {
		err = json.Unmarshal(data, &c)
	}
	if err != nil || c.Source == "" || len(c.Objects) < 20 || len(c.Attributes) < 20 {
		t.Fatalf("testdata: %v, %d classes", err, len(c.Objects))
	}
	return c
}

func TestClassesAgreeWithTheCatalogue(t *testing.T) {
	c := loadCodes(t)
	for name, code := range c.Objects {
		if got, ok := ClassOf(name); !ok || int(got) != code || Acronym(got) != name {
			t.Errorf("%s is %d, want %d", name, got, code)
		}
	}
	for s57, s101 := range c.S101Names {
		if want, ok := c.Objects[s57]; ok {
			if got, _ := ClassOf(s101); int(got) != want {
				t.Errorf("%s is %d, want %d", s101, got, want)
			}
		}
	}
	// Three more from layer profile section 2 at the ends of the lists.
	for name, code := range map[string]chart.Class{"ADMARE": 1, "NEWOBJ": 163, "M_VDAT": 312, "C_STAC": 402} {
		if got, _ := ClassOf(name); got != code {
			t.Errorf("%s is %d, want %d", name, got, code)
		}
	}
}

// s57Table is testdata/s57_classes.json; its source line names GDAL's tables of S-57.
type s57Table struct {
	Source     string
	Attributes map[string]int
	Values     map[string][][2]any
	Classes    map[string]struct{ Code int }
}

func loadS57(t *testing.T) (table s57Table) {
	t.Helper()
	data, err := os.ReadFile("testdata/s57_classes.json")
	if err == nil {
		err = json.Unmarshal(data, &table)
	}
	if err != nil || table.Source == "" || len(table.Classes) != 163 {
		t.Fatalf("testdata: %v, %d classes", err, len(table.Classes))
	}
	return table
}

// All 163 classes of S-57 by their codes, and the attributes whose codes are judged.
func TestClassesAgreeWithS57(t *testing.T) {
	table := loadS57(t)
	for name, c := range table.Classes {
		if got, ok := ClassOf(name); !ok || int(got) != c.Code {
			t.Errorf("%s is %d, want %d", name, got, c.Code)
		}
	}
	for name, code := range table.Attributes {
		if got := attributeNames[name].attr; int(got) != code {
			t.Errorf("%s is %d, want %d", name, got, code)
		}
	}
}

// The codes of bridges and moorings that are told apart, by their meaning in S-57.
func TestCategoriesAgreeWithS57(t *testing.T) {
	values := loadS57(t).Values
	word := func(attribute string, code int) string {
		for _, v := range values[attribute] {
			if v[0].(float64) == float64(code) {
				return v[1].(string)
			}
		}
		return ""
	}
	opens := []string{"opening bridge", "swing bridge", "lifting bridge", "bascule bridge", "draw bridge", "transporter bridge"}
	for i, code := range opening.List() {
		if i >= len(opens) || word("CATBRG", code) != opens[i] {
			t.Errorf("CATBRG %d is %q", code, word("CATBRG", code))
		}
	}
	if got := word("CATBRG", fixedBridge.List()[0]); got != "fixed bridge" {
		t.Errorf("a fixed bridge is %q", got)
	}
	if got := word("CATMOR", chart.MooringBuoy); got != "mooring buoy" {
		t.Errorf("a mooring buoy is %q", got)
	}
}

func TestAttributesAgreeWithTheCatalogue(t *testing.T) {
	c := loadCodes(t)
	read := 0
	for name, code := range c.Attributes {
		m, ok := attributeNames[name]
		if ok && int(m.attr) != code {
			t.Errorf("%s is %d, want %d", name, m.attr, code)
		}
		if ok {
			read++
		}
	}
	if read < 20 {
		t.Errorf("only %d of the attributes are read", read)
	}
	for s57, s101 := range c.S101Names {
		if a, ok := attributeNames[s57]; ok && attributeNames[s101].attr != a.attr {
			t.Errorf("%s is not %s", s101, s57)
		}
	}
	for s101, s57 := range c.S101Attributes {
		m, ok := attributeNames[s101]
		if ok && len(s57) > 0 && attributeNames[s57[0]].attr != m.attr {
			t.Errorf("%s is not %s", s101, s57[0])
		}
	}
}

// The codes that this package judges, by their meaning in the catalogue.
func TestJudgedCodes(t *testing.T) {
	c := loadCodes(t)
	meaning := func(list string, code int) string {
		for _, v := range c.Values[list] {
			if v[0].(float64) == float64(code) {
				return strings.ToLower(v[1].(string))
			}
		}
		return ""
	}
	tests := []struct {
		list string
		code int
		want string
	}{
		{"restriction", speedRestrictions.List()[0], "no wake"},
		{"restriction", speedRestrictions.List()[1], "speed restricted"},
		{"categoryOfRestrictedArea", noWakeAreas.List()[0], "no wake area"},
		{"speedUnits", 2, "kilometres per hour"},
		{"speedUnits", 3, "miles per hour"},
		{"speedUnits", 4, "knots"},
		{"qualityOfVerticalMeasurement", 2, "depth or least depth unknown"},
		{"qualityOfVerticalMeasurement", 3, "doubtful sounding"},
		{"qualityOfVerticalMeasurement", 4, "unreliable sounding"},
		{"qualityOfVerticalMeasurement", 8, "value reported (not surveyed)"},
		{"qualityOfVerticalMeasurement", 9, "value reported (not confirmed)"},
		{"qualityOfVerticalMeasurement", 11, "not regularly maintained"},
	}
	for _, test := range tests {
		if got := meaning(test.list, test.code); got != test.want {
			t.Errorf("%s %d is %q, want %q", test.list, test.code, got, test.want)
		}
	}
}
