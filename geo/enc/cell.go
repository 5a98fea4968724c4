package enc

import (
	"keelroom/geo/chart"
	"keelroom/geo/library"
)

// Cell describes a cell that was read or refused.
type Cell struct {
	Name                       string   // such as US5XX11M
	File                       string   // of the base, without folders
	Edition, Update, IssueDate string   // of the last file applied; YYYY-MM-DD
	Applied                    []string // files of the updates in it
	Scale                      int      // denominator of the compilation scale
	Agency                     int      // AGEN, the code of the producer (IHO S-62)
	Producer                   string   // the producer's name, "" where the code is not listed
	Use                        Use      // navigational purpose
	Comment                    string   // what the producer says in DSID
	Min, Max                   chart.Coord
	Boxed                      bool   // Min and Max are those of its coverage
	Cancelled                  string // file of the update that cancelled it, "" in force
	Set                        *chart.Set
}

// State is the state that the cell is in.
func (c *Cell) State() library.State {
	return library.State{Edition: library.Number(c.Edition), Update: library.Number(c.Update)}
}

// Use is the navigational purpose of a cell (ENC Product Specification, 2.1).
type Use uint8

// String names the purpose.
func (u Use) String() string {
	names := [...]string{"not stated", "overview", "general", "coastal", "approach", "harbour", "berthing"}
	if int(u) < len(names) {
		return names[u]
	}
	return names[0]
}

// describe fills in what the identification says.
func (c *Cell) describe(m *model) {
	id := &m.identity
	c.File, c.Edition, c.Update, c.IssueDate = m.file, id.edition, id.update, isoDate(id.issued)
	c.Scale, c.Agency, c.Producer = m.params.scale, id.agency, agencyName(id.agency)
	if id.use >= 1 && id.use <= 6 {
		c.Use = Use(id.use)
	}
	c.Comment = id.comment
}

// isoDate writes YYYYMMDD with hyphens; other texts stay as they are.
func isoDate(s string) string {
	if _, ok := digits([]byte(s)); !ok || len(s) != 8 {
		return s
	}
	return s[:4] + "-" + s[4:6] + "-" + s[6:]
}

// cover gives the cell the box of its coverage, M_COVR 1.
func (c *Cell) cover() {
	for i := range c.Set.Features {
		f := &c.Set.Features[i]
		if f.Class != chart.MCOVR || f.Meta == nil || f.Meta.CatCov != 1 {
			continue
		}
		for _, p := range f.Coords {
			if !c.Boxed {
				c.Min, c.Max, c.Boxed = p, p, true
			}
			c.Min = chart.Coord{Lon: min(c.Min.Lon, p.Lon), Lat: min(c.Min.Lat, p.Lat)}
			c.Max = chart.Coord{Lon: max(c.Max.Lon, p.Lon), Lat: max(c.Max.Lat, p.Lat)}
		}
	}
}
