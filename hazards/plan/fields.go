package plan

import (
	"time"

	"keelroom/geo/geojson"
)

func (p *Plan) fields() []field {
	return []field{
		p.versionField(),
		text("title", &p.Title),
		text("notes", &p.Notes),
		whole("persons", &p.Persons, func(n int) bool { return n >= 1 && n <= 1000 }, "a whole number from 1 to 1000"),
		text("contact_ashore", &p.ContactAshore),
		maybe("back_by", &p.BackBy),
		p.dayField(),
		p.zoneField(),
		always("boat", &p.Boat),
		always("margins", &p.Margins),
		tideField("tide", &p.Tide, p.zone),
		inOrder(list("wind", &p.Wind), func() int { return len(p.Wind) }, func(i int) time.Time { return p.Wind[i].Time }),
		inOrder(list("swell", &p.Swell), func() int { return len(p.Swell) }, func(i int) time.Time { return p.Swell[i].Time }),
		inOrder(list("stream", &p.Stream), func() int { return len(p.Stream) }, func(i int) time.Time { return p.Stream[i].Time }),
		optional("buoyage_deg", &p.BuoyageDeg, circle),
		choice("buoyage_region", &p.BuoyageRegion, "", "A", "B"),
		always("chart_choices", &p.Choices),
	}
}

func (p *Plan) versionField() field {
	f := required(whole("version", &p.Version, func(int) bool { return true }, "version 1"))
	f.get = func(*writer) (geojson.Value, bool) { return geojson.NumberOf(Version), true }
	return f
}

func (p *Plan) zoneField() field {
	f := text("time_zone", &p.ZoneName)
	f.set = func(v geojson.Value) (wrong string) {
		p.ZoneName = v.Str
		p.Zone, wrong = loadZone(v.Str)
		return wrong
	}
	return checked(f, func() string {
		if p.Zone != nil && p.Zone.String() != p.ZoneName {
			return quoted(p.ZoneName) + " is not the zone in use, " + p.Zone.String() + "; the same is wanted"
		}
		return ""
	})
}

func (c *ChartChoices) fields() []field {
	return []field{
		datum("sounding_datum", &c.SoundingDatum),
		optional("tide_above_chart_m", &c.TideAboveChartM, numberRange{-20, 20, "metres"}),
		flag("accept_expsou_1", &c.AcceptExpsou1),
		texts("vessel_classes", &c.VesselClasses),
		texts("trust", &c.Trust),
	}
}
