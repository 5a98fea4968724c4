package rode

// Holding is what a ground lets an anchor hold, in words. Common practice, no source.
type Holding uint8

// From the best to the worst. What is not charted may be anything but is not known to be
// poor.
const (
	Good Holding = iota + 1
	Fair
	NotCharted
	Poor
)

// Ground is a ground that an anchor digs into.
type Ground struct {
	Holding Holding
	// Counted is the share counted of what her anchor holds in good ground: all of it
	// in good ground, half in fair (common practice, from memory), and no more than that
	// in poor. Where it is not charted all is counted, and half of it is care.
	Counted float64
}

// BestGround is the best there is.
var BestGround = Ground{Good, 1}

// NoGround is a ground that is not charted.
var NoGround = Ground{NotCharted, 1}

// byNature are the grounds by the nature of surface: attribute 113 NATSUR of IHO S-57,
// appendix A. 1 mud, 2 clay, 3 silt, 4 sand, 5 stone, 6 gravel, 7 pebbles, 8 cobbles,
// 9 rock, 11 lava, 14 coral, 17 shells, 18 boulder.
var byNature = map[int]Ground{
	1: {Good, 1}, 2: {Good, 1}, 4: {Good, 1},
	3: {Fair, 0.5}, 5: {Fair, 0.5}, 6: {Fair, 0.5}, 7: {Fair, 0.5}, 8: {Fair, 0.5}, 17: {Fair, 0.5},
	9: Weed, 11: Weed, 14: Weed, 18: Weed,
}

// Weed is ground under weed or kelp, and any other poor one.
var Weed = Ground{Poor, 0.5}

// GroundOf is the ground of codes of NATSUR: the worst of several. None, or one that is
// not known, is not charted.
func GroundOf(natsur ...int) Ground {
	if len(natsur) == 0 {
		return NoGround
	}
	out := BestGround
	for _, code := range natsur {
		g, ok := byNature[code]
		if !ok {
			g = NoGround
		}
		out = out.Worse(g)
	}
	return out
}

// Worse is the worse of two grounds, with the smaller share of what is counted.
func (g Ground) Worse(o Ground) Ground {
	return Ground{max(g.Holding, o.Holding), min(g.Counted, o.Counted)}
}
