package enc

import "keelroom/geo/chart"

// codeProduct is the code of a data set that is another product than an ENC.
const codeProduct = "E-PRODUCT"

// PassedOver is the message about a file of another product beside cells.
func PassedOver(name, place string) chart.Message {
	return chart.Message{Level: chart.Warning, Code: "W-PRODUCT", File: name, Path: place, Found: "a data set of another product, which is passed over", Wanted: "S-57 cells"}
}

func (j *job) passOver(name, place string) { j.others = append(j.others, PassedOver(name, place)) }

// sayOthers reports files of other products: beside cells they are passed over, as
// an exchange set may have both; alone they are refused.
func (j *job) sayOthers() {
	for _, m := range j.others {
		if m.Level == chart.FileError && len(j.files) > 0 {
			m.Level, m.Code, m.Found = chart.Warning, "W-PRODUCT", m.Found+": passed over"
		}
		j.say(m)
	}
	j.others = nil
}
