package engine

import (
	"math"
	"strconv"

	"keelroom/geo/chart"
	"keelroom/geo/geojson"
)

// about writes what every feature has.
func (p *pen) about(f *chart.Feature) {
	p.text("n", f.Name)
	p.number("i", f.Index)
	p.stated("SCAMIN", f.ScaMin)
	p.text("info", f.Info)
	p.own()
}

// own marks what the skipper drew.
func (p *pen) own() {
	if p.set.Authority == chart.Private {
		p.flag("own")
	}
}

// properties writes what a class states.
func (p *pen) properties(f *chart.Feature) {
	p.depths(f)
	if d := f.Danger; d != nil {
		p.stated("WATLEV", d.WatLev)
		p.stated("CATOBS", d.CatObs)
		p.stated("CATWRK", d.CatWrk)
	}
	if m := f.Mark; m != nil {
		p.stated("CATLAM", m.CatLam)
		p.stated("CATCAM", m.CatCam)
		p.list("COLOUR", m.Colours)
		p.stated("shape", m.Shape)
	}
	p.text("bed", bedWords(f.NatSur))
	if l := f.Light; l != nil {
		p.text("light", lightWords(l))
	}
	if r := f.Rules; r != nil {
		p.rules(r)
	}
	if o := f.Overhead; o != nil {
		p.metres("VERCLR", o.VerClrM)
		p.metres("VERCCL", o.VerCclM)
		p.metres("VERCSA", o.VerCsaM)
		p.metres("HORCLR", o.HorClrM)
	}
	if m := f.Meta; m != nil {
		p.stated("CATCOV", m.CatCov)
		p.stated("CATZOC", m.CatZoc)
		p.metres("ORIENT", m.OrientDeg)
	}
}

// edge writes the runs that are not stroked.
func (p *pen) edge(border []int32) {
	for i, v := range border {
		if i == 0 {
			p.out = append(p.out, `,"edge":`...)
		}
		p.separate('[', i)
		p.out = strconv.AppendInt(p.out, int64(v), 10)
	}
	if len(border) > 0 {
		p.out = append(p.out, ']')
	}
}

func (p *pen) depths(f *chart.Feature) {
	switch {
	case f.Class.WaterArea():
		p.metres("DRVAL1", f.DepthMinM)
		p.metres("DRVAL2", f.DepthMaxM)
	case f.Class == chart.DEPCNT:
		p.metres("VALDCO", f.DepthMinM)
	case f.Class.Danger():
		p.metres("VALSOU", f.DepthMinM)
	}
}

func (p *pen) rules(r *chart.Rules) {
	p.list("RESTRN", r.Restrn.List())
	p.list("CATREA", r.CatRea.List())
	if r.SpeedZone {
		p.flag("speed")
	}
	if kn, ok := r.Limit(nil); ok {
		p.metres("limit_kn", math.Round(kn*1000)/1000)
	}
}

func (p *pen) key(name string) {
	p.out = append(p.out, `,"`...)
	p.out = append(p.out, name...)
	p.out = append(p.out, `":`...)
}

func (p *pen) text(name, text string) {
	if text != "" {
		p.key(name)
		p.out = geojson.AppendText(p.out, text)
	}
}

func (p *pen) number(name string, v int) {
	p.key(name)
	p.out = strconv.AppendInt(p.out, int64(v), 10)
}

// stated writes a code; 0 is not stated.
func (p *pen) stated(name string, code int) {
	if code != 0 {
		p.number(name, code)
	}
}

// metres writes a figure that is known.
func (p *pen) metres(name string, v float64) {
	if chart.Known(v) && !math.IsInf(v, 0) {
		p.key(name)
		p.out = strconv.AppendFloat(p.out, v, 'f', -1, 64)
	}
}

func (p *pen) flag(name string) {
	p.key(name)
	p.out = append(p.out, "true"...)
}

func (p *pen) list(name string, codes []int) {
	if len(codes) == 0 {
		return
	}
	p.key(name)
	for i, c := range codes {
		p.separate('[', i)
		p.out = strconv.AppendInt(p.out, int64(c), 10)
	}
	p.out = append(p.out, ']')
}
