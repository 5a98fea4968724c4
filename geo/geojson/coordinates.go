package geojson

import "github.com/paulmach/orb"

// coordinateReader decodes the coordinates of one geometry.
type coordinateReader struct {
	r  *Reader
	in *scanner // of r
	g  *Geometry
}

// finish decodes coordinates that came before the type, and refuses a
// geometry that lacks either.
func (c coordinateReader) finish(found bool, early Mark) error {
	switch {
	case c.g.Type == "":
		return c.in.wrong("a geometry without type; Point, LineString, Polygon or the like is wanted")
	case c.g.Type == GeometryCollection:
		return nil
	case !found:
		return c.in.wrong("a %s without coordinates; they are wanted", c.g.Type)
	case early.path != nil:
		return c.r.Revisit(early, c.coordinates)
	}
	return nil
}

// coordinates decodes the coordinates of a geometry of type g.Type.
func (c coordinateReader) coordinates() (err error) {
	switch c.g.Type {
	case Point:
		err = c.position()
	case MultiPoint:
		err = c.positionList()
	case LineString:
		err = c.line()
	case MultiLineString:
		err = c.r.Array(func(int) error { return c.line() })
	case Polygon:
		err = c.polygon()
	case MultiPolygon:
		err = c.r.Array(func(int) error { return c.polygon() })
	}
	if len(c.g.Z) > 0 {
		c.g.padZ(len(c.g.Positions))
	}
	return err
}

func (c coordinateReader) polygon() error {
	err := c.r.Array(func(int) error { return c.line() })
	c.g.Polygons = append(c.g.Polygons, len(c.g.Ends))
	return err
}

func (c coordinateReader) line() error {
	err := c.positionList()
	c.g.Ends = append(c.g.Ends, len(c.g.Positions))
	return err
}

// positionList decodes an array of positions. It does what Array would do with
// position, without a call through a function value for each.
func (c coordinateReader) positionList() error {
	start, err := c.in.open(Array)
	if err != nil {
		return err
	}
	steps := len(c.in.path)
	if !c.in.ends(']') {
		c.in.push(step{"", 0})
		err = c.positionItems(&c.in.path[steps].index)
	}
	c.in.path = c.in.path[:steps]
	return c.in.leave(start, err)
}

func (c coordinateReader) positionItems(index *int) error {
	for {
		if err := c.position(); err != nil {
			return err
		}
		if c.in.pos < len(c.in.src) && c.in.src[c.in.pos] == ',' {
			if next := skipSpace(c.in.src, c.in.pos+1); next < len(c.in.src) && c.in.src[next] == '[' {
				c.in.pos = next
				*index++
				continue
			}
		}
		if more, err := c.in.more(']'); !more {
			return err
		}
		*index++
	}
}

// position decodes one position.
func (c coordinateReader) position() error {
	if c.r.maxPositions > 0 && c.r.positions >= c.r.maxPositions {
		return c.in.limit("more than %d positions; fewer are wanted", c.r.maxPositions)
	}
	p, z, count, end := scanPosition(c.in.src, c.in.pos)
	if count == 0 || c.in.depth >= MaxDepth {
		return c.longPosition()
	}
	c.in.pos = end
	c.add(p, z, count)
	return nil
}

func (c coordinateReader) add(p orb.Point, z float64, count int) {
	if count > 2 {
		c.g.padZ(len(c.g.Positions))
		c.g.Z = append(c.g.Z, z)
	}
	c.g.Positions = append(c.g.Positions, p)
	c.r.positions++
}

// scanPosition reads a position of two or three numbers at i and returns how
// many it has and where it ends; count is 0 where anything else stands there,
// right or wrong.
func scanPosition(b []byte, i int) (p orb.Point, z float64, count, end int) {
	var n [3]float64
	if i >= len(b) || b[i] != '[' {
		return p, 0, 0, i
	}
	for count < 3 {
		v, next, ok := scanFloat(b, skipSpace(b, i+1))
		if !ok {
			return p, 0, 0, i
		}
		n[count] = v
		count++
		i = skipSpace(b, next)
		switch {
		case i >= len(b):
			return p, 0, 0, i
		case b[i] == ']' && count > 1:
			return orb.Point{n[0], n[1]}, n[2], count, i + 1
		case b[i] != ',':
			return p, 0, 0, i
		}
	}
	return p, 0, 0, i
}

// longPosition decodes a position of more than three numbers, or says what is
// wrong with it.
func (c coordinateReader) longPosition() error {
	var n [3]float64
	count := 0
	if k := c.in.kind(); k != Array && k != Invalid {
		c.in.stand()
		return c.in.wrong("%s in a %s; a position [longitude, latitude] is wanted", c.in.found(c.in.pos), c.g.Type)
	}
	err := c.r.Array(func(i int) error {
		v, err := c.r.Number()
		if i < 3 {
			n[i] = v
		}
		count++
		return err
	})
	if err != nil {
		return err
	}
	if count < 2 {
		c.in.again()
		return c.in.wrong("a position of %d numbers; [longitude, latitude] is wanted", count)
	}
	c.add(orb.Point{n[0], n[1]}, n[2], count)
	return nil
}
