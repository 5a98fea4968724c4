package plan

import (
	"fmt"

	"keelroom/geo/geojson"
)

// Fields of objects and lists.

// pointerTo is a *T that is a record.
type pointerTo[T any] interface {
	*T
	record
}

// nested is an object that may be missing; start gives it its defaults.
func nested[T any, P pointerTo[T]](key string, p **T, start func() T) field {
	return field{
		key: key, kind: geojson.Object,
		walk: func(d *decoder) error {
			item := start()
			*p = &item
			return d.record(P(*p))
		},
		get: func(w *writer) (geojson.Value, bool) {
			if *p == nil {
				return geojson.Value{}, false
			}
			return w.record(P(*p)), true
		},
		check: func(c *checker) {
			if *p != nil {
				c.record(key, P(*p))
			}
		},
	}
}

// always is an object that is there in every plan and need not be in the file.
func always(key string, rec record) field {
	return field{
		key: key, kind: geojson.Object, def: geojson.Value{Kind: geojson.Object},
		walk:  func(d *decoder) error { return d.record(rec) },
		get:   func(w *writer) (geojson.Value, bool) { return w.record(rec), true },
		check: func(c *checker) { c.record(key, rec) },
	}
}

// list is a list of objects.
func list[T any, P pointerTo[T]](key string, p *[]T) field {
	return field{
		key: key, kind: geojson.Array,
		walk: func(d *decoder) error {
			*p = nil
			return d.items(func() error {
				var item T
				err := d.record(P(&item))
				*p = append(*p, item)
				return err
			})
		},
		get: func(w *writer) (geojson.Value, bool) {
			v := geojson.Value{Kind: geojson.Array}
			for i := range *p {
				v.Items = append(v.Items, w.record(P(&(*p)[i])))
			}
			return v, len(*p) > 0
		},
		check: func(c *checker) {
			for i := range *p {
				c.record(fmt.Sprintf("%s[%d]", key, i), P(&(*p)[i]))
			}
		},
	}
}

// numbers is a list of numbers.
func numbers(key string, p *[]float64, s numberRange) field {
	return field{
		key: key, kind: geojson.Array,
		walk: func(d *decoder) error {
			*p = nil
			return d.items(func() error {
				v, err := d.r.Number()
				*p = append(*p, v)
				return err
			})
		},
		get: func(*writer) (geojson.Value, bool) {
			v := geojson.Value{Kind: geojson.Array}
			for _, n := range *p {
				v.Items = append(v.Items, geojson.NumberOf(n))
			}
			return v, len(*p) > 0
		},
		check: func(c *checker) {
			for i, v := range *p {
				c.wrong(fmt.Sprintf("%s[%d]", key, i), s.wrong(v))
			}
		},
	}
}

// texts is a list of texts.
func texts(key string, p *[]string) field {
	return field{
		key: key, kind: geojson.Array,
		walk: func(d *decoder) error {
			*p = nil
			return d.items(func() error {
				v, err := d.r.String()
				*p = append(*p, v)
				return err
			})
		},
		get: func(*writer) (geojson.Value, bool) {
			v := geojson.Value{Kind: geojson.Array}
			for _, s := range *p {
				v.Items = append(v.Items, geojson.TextOf(s))
			}
			return v, len(*p) > 0
		},
	}
}
