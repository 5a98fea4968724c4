package state

import (
	"strconv"
	"time"

	"github.com/paulmach/orb"

	"keelroom/app/engine"
	"keelroom/geo/library"
	"keelroom/hazards"
)

// Ports are what the parts of the state have of the world outside, and the mark that
// the screen wants drawing again.
type Ports struct {
	engine Engine
	store  Store
	chart  ChartView
	strip  StripView
	Device Device
	Dirty  bool // something on the screen has changed
}

// Doc is a document that stays outside the program until somebody reads it: a
// chart drawn for the view has megabytes that the screen never looks at.
type Doc interface{ String() string }

// Engine checks. Ask gives every reply to answer, progress included, on the
// screen's turn; the last one has another state than progress.
type Engine interface {
	// cancel ends that request and no other.
	Ask(r engine.Request, answer func(engine.Reply, map[string]Doc)) (cancel func())
	// AskFile asks about a file, which passes the screen unread.
	AskFile(r engine.Request, f File, answer func(engine.Reply, map[string]Doc)) (cancel func())
}

// ChartView draws. Every call is cheap to repeat.
type ChartView interface {
	SetSet(id string, draw Doc) // nil takes the set away
	SetOrder(shown []ShownSet)  // the lowest first
	SetPrivate(draw Doc)
	SetPlan(planFile string)
	SetReport(report Doc) // nil: not checked
	// Follow says under which revisions the engine was given the plan and the charts: a
	// point that is dragged is asked about there, past the screen.
	Follow(planRev, chartRev int)
	SetWater(levels *hazards.Water, sets []string)
	SetMode(mode string)
	SketchDone()
	SketchBack()
	SketchCancel()
	AddAtCentre()
	SetPalette(name string)
	GoTo(at orb.Point)
	Fit(bounds [4]float64)
	Select(feature, vertex int)
	ZoomBy(steps float64)
	MarkPlace(at *orb.Point) // that was asked about; nil takes the mark away
	SetWatch(drawing string) // of the anchor watch; "" takes it away
	// MarkAnchorages marks places to lie at, numbered from 1; none takes the marks away.
	MarkAnchorages(at []orb.Point)
}

// ShownSet is one layer set in the order of drawing.
type ShownSet struct {
	ID    string
	Shown bool
}

// StripView draws the day.
type StripView interface {
	SetDay(day Doc)
	SetRibbon(ribbon string) // "" takes it away
	SetCursor(at int64)      // Unix seconds
	SetPalette(name string)
}

// Store keeps plans, layer sets and settings. Calls run one after the other, off
// the screen's turn; done is called on it. What was stored before stays whole
// when a call fails.
type Store interface {
	// Load gives all that is kept.
	Load(done func(Kept, error))
	// Waits says what a call that is long in coming waits for, "" where that is not known.
	Waits() string
	// SavePlan keeps a plan if the one kept has the revision before it; else
	// it fails with ErrNewer.
	SavePlan(p SavedPlan, done func(error))
	Plan(id string, done func(SavedPlan, error))
	DeletePlan(id string, done func(error))
	// SaveSet keeps a set if the one kept has the revision Was, or there is none; else
	// it fails with ErrNewer.
	SaveSet(s SavedSet, done func(error))
	// ArrangeSet changes how a set is shown, if it is kept.
	ArrangeSet(id string, hidden bool, order int, done func(error))
	// DeleteSet deletes a set; it fails with ErrNewer where the one kept is of another
	// revision.
	DeleteSet(id, was string, done func(error))
	SaveSetting(name, value string, done func(error))
	// StoreDay stores the documents of a checked day, in place of those before, with what
	// they were worked out from. They may be lost at any time.
	StoreDay(of string, docs map[string]Doc)
	// LastDay gives the documents stored, nil where those are of something else.
	LastDay(of string, done func(docs map[string]Doc))
}

// Kept is what a store holds.
type Kept struct {
	Plans    []PlanHead // in no order
	Sets     []SavedSet // in the order of drawing
	Settings map[string]string
}

// PlanHead is what the list of plans shows of one.
type PlanHead struct {
	ID, Title string
	Rev       int
	Changed   time.Time
}

// SavedPlan is a plan with its earlier and undone states, the newest last.
type SavedPlan struct {
	PlanHead
	Text         string // the plan file
	Past, Future []string
}

// SavedSet is a layer set as its files.
type SavedSet struct {
	ID, Name string
	Hidden   bool
	Order    int
	Files    []File
	// LeftOut are messages about files that came with these and were refused, or are
	// missing.
	LeftOut []engine.SetMessage
	// Rev is another each time that it is kept; Was is that of the time before, "" for
	// the first.
	Rev, Was string
}

// File is a file that the device opened. Data belongs to whoever holds it.
type File = library.File

// Blob is a file's contents, outside the program until it is read.
type Blob = library.Content

// Bytes is a Blob of the program's own. It is a Doc too.
type Bytes = library.Bytes

// FileDoc is what the Doc of file i of a reply is called. It is a Blob too.
func FileDoc(i int) string { return "file" + strconv.Itoa(i) }

// Device is what else the screen wants of the machine it runs on.
type Device interface {
	Now() time.Time
	NewID() string
	Zone() string // the device's IANA zone, or ""
	Save(name, kind, text string)
	CanShare() bool
	Share(name, kind, title, text string, failed func(error))
	Pick(many bool, accept string, picked func([]File))
	Print()
	SetPalette(name string)
	Fetch(path string, done func([]byte, error)) // of the app's own files
	Persist(done func(kept bool))                // asks that nothing be thrown away
	StartIsOver()                                // what had to wait for the first verdict may go on
	Reload()                                     // begins anew, as far as the screen goes
	After(d time.Duration, run func())
	Focus(id string)
	Reveal(id string) // scrolls it to the top of what scrolls
}

// redraw wants the screen drawn again at the end of this turn.
func (p *Ports) redraw() { p.Dirty = true }
