package edit

import "keelroom/hazards/plan"

func isPart(role string) bool { return role == plan.RoleRoute || role == plan.RoleStay }

// PartOfFeature returns which part of the day a feature of the plan file is, as
// [plan.Encode] writes it; ok is false for a feature that is none.
func PartOfFeature(p *plan.Plan, feature int) (part int, ok bool) {
	all := p.Roles()
	if feature < 0 || feature >= len(all) || !isPart(all[feature]) {
		return 0, false
	}
	for _, role := range all[:feature] {
		if isPart(role) {
			part++
		}
	}
	return part, true
}

// FeatureOfPart returns which feature of the plan file a part of the day is.
func FeatureOfPart(p *plan.Plan, part int) (feature int, ok bool) {
	for i, role := range p.Roles() {
		if !isPart(role) {
			continue
		}
		if part == 0 {
			return i, true
		}
		part--
	}
	return 0, false
}
