package contest

import (
	"fmt"
	"io"
	"slices"
	"text/tabwriter"
)

// Row compares two contestants over the same tasks.
type Row struct {
	Task, Ours, Peer string
	OursNs, PeerNs   []float64 // for each thing asked for, round by round
	Agree, Of        int       // answers that agree, of how many
}

// Print writes the rows as a table. The ratio is the median of the rounds'
// ratios, peer to ours, with the least and the greatest of them.
func Print(w io.Writer, unit string, rows []Row) {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintf(t, "task\tours\tns a %s\tpeer\tns a %s\tpeer/ours\tanswers agree\n", unit, unit)
	for _, r := range rows {
		low, mid, high := r.Ratio()
		fmt.Fprintf(t, "%s\t%s\t%.0f\t%s\t%.0f\t%.2f (%.2f-%.2f)\t%d of %d\n", r.Task,
			r.Ours, Median(r.OursNs), r.Peer, Median(r.PeerNs), mid, low, high, r.Agree, r.Of)
	}
	t.Flush()
}

// Ratio gives the least, the median and the greatest of the rounds' ratios,
// peer to ours: above 1, ours is faster.
func (r *Row) Ratio() (low, mid, high float64) {
	var all []float64
	for i, ours := range r.OursNs {
		all = append(all, r.PeerNs[i]/ours)
	}
	if len(all) == 0 {
		return 0, 0, 0
	}
	return slices.Min(all), Median(all), slices.Max(all)
}

// Median of some numbers, 0 of none.
func Median(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	s := slices.Sorted(slices.Values(v))
	return (s[(len(s)-1)/2] + s[len(s)/2]) / 2
}
