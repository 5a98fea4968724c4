package edit

import "keelroom/hazards/plan"

func isPart(role string) bool    { return role == plan.RoleRoute || role == plan.RoleStay }
func isPrivate(role string) bool { return role == plan.RoleZone || role == plan.RoleHazard }

// rankOf counts the features of a kind before a feature of that kind.
func rankOf(p *plan.Plan, feature int, kind func(role string) bool) (int, bool) {
	all := p.Roles()
	if feature < 0 || feature >= len(all) || !kind(all[feature]) {
		return 0, false
	}
	n := 0
	for _, role := range all[:feature] {
		if kind(role) {
			n++
		}
	}
	return n, true
}

// featureOf finds the nth feature of a kind.
func featureOf(p *plan.Plan, n int, kind func(role string) bool) (int, bool) {
	for i, role := range p.Roles() {
		if !kind(role) {
			continue
		}
		if n == 0 {
			return i, true
		}
		n--
	}
	return 0, false
}

// PartOfFeature returns which part of the day a feature of the plan file is, as
// [plan.Encode] writes it; ok is false for a feature that is none.
func PartOfFeature(p *plan.Plan, feature int) (part int, ok bool) { return rankOf(p, feature, isPart) }

// FeatureOfPart returns which feature of the plan file a part of the day is.
func FeatureOfPart(p *plan.Plan, part int) (feature int, ok bool) { return featureOf(p, part, isPart) }

// PrivateOfFeature returns which of [plan.Plan.Private] a feature of the plan
// file is; ok is false for a feature that is none.
func PrivateOfFeature(p *plan.Plan, feature int) (i int, ok bool) {
	return rankOf(p, feature, isPrivate)
}

// FeatureOfPrivate returns which feature of the plan file a private one is.
func FeatureOfPrivate(p *plan.Plan, i int) (feature int, ok bool) {
	return featureOf(p, i, isPrivate)
}
