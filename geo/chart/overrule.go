package chart

// Overruled tells whether what the feature says about the charts themselves
// (survey quality, buoyage, coverage) does not count: it is a private layer's,
// and a chart is loaded. A private layer may add danger, never remove it.
func (c *Chart) Overruled(f *Feature) bool {
	return !c.onlyOwn && f.Set != nil && f.Set.Authority == Private
}
