package words

import (
	"encoding/json"
	"os"
	"strings"
	"testing"
)

// The words cover every code that S-57 (GDAL's tables) and S-101 (Feature Catalogue
// 2.1.0) list, and the few that decide are what they are taken for.
func TestRuleWordsCoverTheStandards(t *testing.T) {
	lists := map[string]map[int]string{"CATREA": categories, "categoryOfRestrictedArea": categories, "RESTRN": restrictions, "restriction": restrictions}
	deciding := map[string]map[int]string{
		"CATREA": {1: "offshore safety zone", 9: "military area", 14: "minefield", 18: "swimming area"}, "categoryOfRestrictedArea": {1: "offshore safety zone", 9: "military area", 14: "minefield", 18: "swimming area"},
		"RESTRN": {7: "entry prohibited", 8: "entry restricted", 14: "area to be avoided"}, "restriction": {7: "entry prohibited", 8: "entry restricted", 14: "area to be avoided", 42: "power-driven vessels prohibited"},
	}
	for _, file := range []string{"s57_classes.json", "s57_s101_codes.json"} {
		var table struct{ Values map[string][][2]any }
		data, err := os.ReadFile("../../geo/layer/testdata/" + file)
		if err == nil {
			err = json.Unmarshal(data, &table)
		}
		if err != nil {
			t.Fatal(err)
		}
		for list, values := range table.Values {
			for _, v := range values {
				code, meaning := int(v[0].(float64)), strings.ToLower(v[1].(string))
				if names := lists[list]; names != nil && names[code] == "" {
					t.Errorf("%s %d, %s, has no word", list, code, meaning)
				}
				if want := deciding[list][code]; want != "" && want != meaning {
					t.Errorf("%s %d is %q, taken for %q", list, code, meaning, want)
				}
			}
		}
	}
}
