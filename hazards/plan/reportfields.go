package plan

import "time"

// The members of the report, in the order they are written. Which function names
// a member says how it is rounded: see figures.go.

func (r *Report) fields() []field {
	return []field{
		required(whole("version", new(Version), func(n int) bool { return n == Version }, "version 1")),
		severity("verdict", &r.Verdict),
		at("depart", &r.Depart),
		at("back", &r.Back),
		all(list("leave_by", &r.LeaveBy)),
		hundredths("distance_nm", &r.DistanceNm),
		tenths("under_way_min", &r.UnderWayMin),
		tenths("fuel_l", &r.FuelL),
		orNull(nested("least_clearance", &r.LeastClearance, func() LeastClearance { return LeastClearance{} })),
		orNull(nested("tide", &r.Tide, func() TideOfDay { return TideOfDay{} })),
		orNull(nested("sun", &r.Sun, func() Sun { return Sun{} })),
		all(list("charts", &r.Charts)),
		all(texts("messages", &r.Messages)),
		states("checks", &r.Checks),
		all(texts("cautions", &r.Cautions)),
		list("more", &r.More),
	}
}

func (m *More) fields() []field {
	return []field{words("check", &m.Check), severity("severity", &m.Severity), count("leg", &m.Leg), count("count", &m.Count)}
}

func (l *LeaveBy) fields() []field {
	return []field{atOrBefore("time", &l.Time), words("why", &l.Why)}
}

func (l *LeastClearance) fields() []field {
	return []field{down("clearance_m", &l.ClearanceM), at("time", &l.Time), position("position", &l.Position), count("leg", &l.Leg)}
}

func (t *TideOfDay) fields() []field {
	return []field{count("datum", &t.Datum), words("method", &t.Method), all(list("events", &t.Events))}
}

func (h *HighOrLow) fields() []field {
	return []field{instant("time", &h.Time), words("kind", &h.Kind), figure("height_m", &h.HeightM, 2)}
}

func (s *Sun) fields() []field {
	return []field{at("sunrise", &s.Sunrise), at("sunset", &s.Sunset), at("civil_dusk", &s.CivilDusk)}
}

func (c *ChartUsed) fields() []field {
	return []field{
		words("title", &c.Title), words("edition", &c.Edition), words("issue_date", &c.IssueDate),
		count("scale", &c.Scale), count("datum", &c.Datum), words("authority", &c.Authority), words("sha256", &c.SHA256),
	}
}

func (s *Source) fields() []field {
	return []field{words("layer", &s.Layer), words("class", &s.Class), words("name", &s.Name)}
}

func (t *Term) fields() []field {
	return []field{words("name", &t.Name), figure("value", &t.Value, 4), words("unit", &t.Unit), words("why", &t.Why)}
}

func source(p **Source) field {
	return orNull(nested("source", p, func() Source { return Source{} }))
}

func (l *Leg) fields() []field {
	return []field{
		constant("kind", "leg"), words("route", &l.Route), count("leg", &l.Leg),
		bearing("course_deg", &l.CourseDeg), bearing("course_magnetic_deg", &l.CourseMagneticDeg),
		hundredths("distance_nm", &l.DistanceNm), at("start", &l.Start), at("end", &l.End),
		tenths("kn", &l.Kn), down("least_clearance_m", &l.LeastClearanceM), list("passes", &l.Passes),
	}
}

func (f *Finding) fields() []field {
	return []field{
		constant("kind", "finding"), words("check", &f.Check), severity("severity", &f.Severity),
		words("title", &f.Title), words("detail", &f.Detail), count("leg", &f.Leg),
		at("time", &f.Time), at("until", &f.Until), windows("windows", &f.Windows),
		f.measured(), f.required(), words("unit", &f.Unit), source(&f.Source),
		list("made_of", &f.Made), list("also", &f.Also),
		// Last, as findings that tie are written in the order of their texts.
		words("code", &f.Code), words("id", &f.ID),
	}
}

func (p *Passing) fields() []field {
	return []field{count("leg", &p.Leg), at("time", &p.Time), position("position", &p.At)}
}

func (z *ZonePassage) fields() []field {
	return []field{
		constant("kind", "zone"), words("name", &z.Name), tenths("limit_kn", &z.LimitKn),
		at("enter", &z.Enter), at("leave", &z.Leave), position("exit", &z.Exit),
		yesOrNo("stated", &z.Stated), count("leg", &z.Leg),
	}
}

func (s *SlowDown) fields() []field {
	return []field{
		constant("kind", "slow-down"), words("zone", &s.Zone), at("time", &s.Time),
		tenths("from_kn", &s.FromKn), tenths("to_kn", &s.ToKn), count("leg", &s.Leg),
	}
}

func (c *Clearance) fields() []field {
	return []field{
		constant("kind", "clearance"), count("leg", &c.Leg), at("time", &c.Time),
		down("charted_depth_m", &c.ChartedDepthM), hundredths("tide_m", &c.TideM), hundredths("margin_m", &c.MarginM),
		hundredths("draught_m", &c.DraughtM), hundredths("squat_m", &c.SquatM), hundredths("wave_m", &c.WaveM),
		down("clearance_m", &c.ClearanceM), up("required_m", &c.RequiredM), source(&c.Source),
	}
}

func (s *StayResult) fields() []field {
	return []field{
		constant("kind", "stay"), words("name", &s.Name), at("arrive", &s.Arrive), at("until", &s.Until),
		down("depth_arrival_m", &s.DepthArrivalM), down("depth_least_m", &s.DepthLeastM), down("depth_greatest_m", &s.DepthGreatestM),
		down("clearance_least_m", &s.ClearanceLeastM), hundredths("rode_m", &s.RodeM), hundredths("rode_aboard_m", &s.RodeAboardM),
		hundredths("radius_m", &s.RadiusM), down("room_m", &s.RoomM), down("lee_room_m", &s.LeeRoomM), up("sea_greatest_m", &s.SeaGreatestM),
		hundredths("fetch_nm", &s.FetchNm), bearing("wind_from_deg", &s.WindFromDeg),
		orNull(nested("wind_room_deg", &s.WindRoom, func() WindRoom { return WindRoom{} })), count("leg", &s.Leg),
		rounding("load_n", &s.LoadN, decimals(0)), hundredths("to_lay_m", &s.ToLayM), down("scope_high", &s.ScopeHigh), down("scope_low", &s.ScopeLow),
		orNull(nested("lift_kn", &s.LiftKn, func() Lift { return Lift{} })), words("bottom", &s.Bottom),
		up("sound_from_m", &s.SoundFromM), down("sound_to_m", &s.SoundToM), all(list("hours", &s.Hours)), list("explained", &s.Explained),
	}
}

func (l *Lift) fields() []field {
	return []field{tenths("level", &l.LevelKn), tenths("5_deg", &l.SteepKn)}
}

func (h *StayHour) fields() []field {
	return []field{
		instant("time", &h.Time), hundredths("tide_m", &h.TideM), down("clearance_m", &h.ClearanceM), tenths("gust_kn", &h.GustKn),
		up("sea_m", &h.SeaM), up("sea_open_m", &h.SeaOpenM), bearing("heading_deg", &h.HeadingDeg), down("scope", &h.Scope),
	}
}

func (e *Explained) fields() []field {
	return []field{words("figure", &e.Figure), list("made_of", &e.Made)}
}

func (w *WindRoom) fields() []field {
	return []field{hundredths("backing", &w.BackingDeg), hundredths("veering", &w.VeeringDeg)}
}

func (s *SwingingCircle) fields() []field {
	return []field{
		constant("kind", "swinging-circle"), words("stay", &s.Stay), hundredths("radius_m", &s.RadiusM), count("leg", &s.Leg),
		bearings("sector_deg", &s.SectorDeg),
	}
}

// The time by which each kind of feature is ordered.

func (l *Leg) when() *time.Time            { return l.Start }
func (f *Finding) when() *time.Time        { return f.Time }
func (z *ZonePassage) when() *time.Time    { return z.Enter }
func (s *SlowDown) when() *time.Time       { return s.Time }
func (c *Clearance) when() *time.Time      { return c.Time }
func (s *StayResult) when() *time.Time     { return s.Arrive }
func (s *SwingingCircle) when() *time.Time { return nil }
