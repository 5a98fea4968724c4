package layer_test

import (
	"fmt"

	"keelroom/geo/layer"
)

// A skipper draws a speed zone and a contour, and mistypes the contour.
func ExampleDecode() {
	data := `{"type": "FeatureCollection", "layer": {"title": "INVENTED bay", "verticalDatum": 12}, "features": [
		{"type": "Feature", "properties": {"objectClass": "RESARE", "RESTRN": "27", "speedLimit": 10, "speedUnits": "km/h"},
		 "geometry": {"type": "Polygon", "coordinates": [[[10, 50], [10.1, 50], [10.1, 50.1], [10, 50]]]}},
		{"type": "Feature", "properties": {"objectClass": "DEPCNT", "VALDCO": "2,5"},
		 "geometry": {"type": "LineString", "coordinates": [[10, 50], [10.1, 50]]}}]}`
	set, messages := layer.Decode([]layer.File{{Name: "bay.geojson", Data: []byte(data)}})
	for _, f := range set.Features {
		fmt.Printf("%s, limit %.2f kn\n", layer.Acronym(f.Class), f.Rules.Limits[0].Kn)
	}
	for _, m := range messages {
		fmt.Println(m)
	}
	fmt.Println("features left out that count as unknown water:", len(set.Refused))
	// Output:
	// RESARE, limit 5.40 kn
	// E-NUM bay.geojson features[1].properties.VALDCO: "2,5"; a number with a decimal point
	// features left out that count as unknown water: 1
}
