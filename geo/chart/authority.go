package chart

import (
	"maps"
	"slices"
)

// standing orders sets by who stands behind them. A set takes away what another
// says only if it stands at least as high: a derived chart never takes away from
// an official one, a private layer from none.
type standing uint8

// The standings.
const (
	drawn standing = iota // by a skipper
	derived
	official
)

// standing is that of a set: official are also the producer's own cells, and the
// derived sets that the skipper trusts.
func (c *Chart) standing(s *Set) standing {
	switch {
	case s == nil || s.Authority == Private:
		return drawn
	case s.Authority == Official || s.FromCell || c.trusted[s]:
		return official
	}
	return derived
}

// takesFrom reports whether a set that covers a place takes away what another says
// of it: the larger scale of two, unless the other stands higher.
func (c *Chart) takesFrom(s, other *Set) bool {
	return rank(s) < rank(other) && c.standing(s) >= c.standing(other)
}

// Overruled reports whether what the feature says about the charts themselves
// (survey quality, buoyage, coverage) does not count: it is a private layer's,
// and a chart is loaded. A private layer may add danger, never remove it.
func (c *Chart) Overruled(f *Feature) bool {
	return !c.onlyOwn && f.Set != nil && f.Set.Authority == Private
}

// Trusting is the chart with the derived sets of those names (titles, or SHA-256)
// counting like official ones, as a skipper chose, and no others. It is the chart
// itself where that changes nothing, else a new index, as New makes it.
func (c *Chart) Trusting(names []string) *Chart {
	trusted := map[*Set]bool{}
	for _, s := range c.sets {
		if s.derived() && slices.ContainsFunc(names, s.isCalled) {
			trusted[s] = true
		}
	}
	if maps.Equal(trusted, c.trusted) || len(trusted) == 0 && len(c.trusted) == 0 {
		return c
	}
	return index(c.sets, trusted, nil)
}

// derived reports whether a set is one that may be trusted over official ones.
func (s *Set) derived() bool { return s.Authority == Derived && !s.FromCell }

func (s *Set) isCalled(name string) bool {
	return name != "" && (name == s.Title || name == s.SHA256)
}

// Trusted lists the sets that count like official ones because the skipper chose so.
func (c *Chart) Trusted() []*Set {
	return slices.DeleteFunc(slices.Clone(c.sets), func(s *Set) bool { return !c.trusted[s] })
}
