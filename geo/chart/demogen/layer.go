package main

// layerHead is the foreign member of every layer file.
func layerHead() props {
	return props{
		{"title", "INVENTED WATERS: the demo chart of Keelroom"},
		{"source", "INVENTED: made by geo/chart/demogen from a mathematical sea bed; no survey, no such place; not for navigation"},
		{"licence", "CC0-1.0"},
		{"edition", "1"},
		{"issueDate", "20260101"},
		{"authority", "derived"},
		{"compilationScale", 12000},
		{"verticalDatum", 23},
		{"depthUnit", "m"},
	}
}

// layerFiles returns the layer files by name, one a class.
func layerFiles() (map[string][]byte, error) {
	features, err := derivedFeatures()
	if err != nil {
		return nil, err
	}
	for class, more := range placedFeatures() {
		features[class] = append(features[class], more...)
	}
	files := map[string][]byte{}
	for _, class := range sortedKeys(features) {
		b, err := collection(class, "layer", layerHead(), features[class])
		if err != nil {
			return nil, err
		}
		files[class+".geojson"] = b
	}
	return files, nil
}
