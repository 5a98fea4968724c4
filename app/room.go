package app

import (
	"encoding/json"
	"slices"
	"time"

	"github.com/paulmach/orb"

	"keelroom/hazards/plan"
)

// Room is the state of the screen: the open plan with its history, the charts,
// the newest report, and what is being done. All its methods run on the screen's
// turn. It must be made by NewRoom.
type Room struct {
	engine Engine
	store  Store
	chart  ChartView
	strip  StripView
	device Device
	dirty  bool // something on the screen has changed

	build string

	open  SavedPlan  // Text is the plan as it is
	plan  *plan.Plan // of open.Text
	rev   int        // counts every change of the plan within this page
	plans []PlanHead
	save  saving

	sets     []*chartSet // the lowest first
	chartRev int
	checking checking
	ribbon   ribbon
	station  stationSearch

	day      Day // the newest checked day, what is on the screen
	dayDoc   dayDoc
	dayRaw   Doc // what the strip shows
	cursor   int64
	cursorBy bool // the skipper chose it

	tab      string
	mode     string
	sketched int
	selected selection
	notices  []notice
	place    *placeInfo
	zoneForm *sketchForm
	read     map[string]bool // whether an earlier state can be read
	finding  int             // the one that was tapped on the chart
	viewAt   *orb.Point
	settings map[string]string
	typed    map[string]typing

	deletedPlans []SavedPlan
	removed      []*chartSet
	opening      []*opening
	looking      []*taking         // files that the engine is looking into
	stopping     []*taking         // archives that can be stopped
	revs         map[string]string // of the sets in the store, as far as this tab knows
	spares       []cellFile
	told         int // counts the messages
	shared       []File
	drafts       map[string]draft
	shown        int  // counts what was put on the screen of checks
	asked        bool // the device, to keep what is saved
	unpromised   bool // the device has not promised it
	ready        bool // the stored state has been read
	started      bool // a plan has been opened
	early        []func()
	choseEarly   []func()       // before the stored state was read
	more         map[string]int // of long lists, rows that are shown beyond the first: see lists.go
	windows      map[int]int    // by part, the first waypoint that is listed
	stops        []stop
	offline      string
	progress     string
}

// selection is a chosen waypoint or stay: a feature of the plan file.
type selection struct{ feature, vertex int }

var nothing = selection{-1, -1}

// notice is a line that says what happened, with an undo where there is one.
type notice struct {
	id    int
	grave bool
	text  string
	do    string // an action that it offers, "" none
	arg   string
	label string // of the offer
}

// typing is what was typed into a field and refused.
type typing struct {
	text, wrong string
	choices     []choice
}

// choice is one answer to a question that what was typed leaves open.
type choice struct{ label, value string }

// NewRoom makes the state of a screen.
func NewRoom(e Engine, s Store, d Device, build string) *Room {
	return &Room{
		engine: e, store: s, device: d, build: build, chart: blindChart{}, strip: blindStrip{},
		tab: tabWatch, mode: modeLook, selected: nothing, settings: map[string]string{}, revs: map[string]string{}, typed: map[string]typing{},
		finding: -1, plan: plan.New(), progress: "Opening what was kept.",
	}
}

// Attach gives the room its views; the first calls of both come before Start.
func (r *Room) Attach(c ChartView, s StripView) { r.chart, r.strip = c, s }

// redraw wants the screen drawn again at the end of this turn.
func (r *Room) redraw() { r.dirty = true }

// Turn runs something that is the room's business and says whether the screen
// has to be drawn again.
func (r *Room) Turn(run func()) (changed bool) {
	r.dirty = false
	run()
	return r.dirty
}

// Start reads what is kept and opens the plan that was open, or the demo day.
func (r *Room) Start() {
	waiting := r.watchStore(func() bool { return !r.ready }, slowOpening)
	r.store.Load(func(k Kept, err error) {
		waiting()
		if err != nil {
			r.tell(true, "What was kept on this device cannot be read: "+sentence(err)+" Nothing will be saved until that is mended; export what matters.")
			r.save.broken = true
		}
		r.begin(k)
	})
}

func (r *Room) begin(k Kept) {
	r.ready = true
	if k.Settings != nil {
		r.settings = k.Settings
	}
	r.plans = k.Plans
	r.readStops()
	r.setPalette(r.settings[settingPalette])
	r.chooseEarly()
	r.openSets(k.Sets)
	if id := r.settings[settingPlan]; id != "" && r.known(id) {
		r.OpenPlan(id)
		return
	}
	if len(r.plans) > 0 {
		r.OpenPlan(newest(r.plans).ID)
		return
	}
	r.openDemo()
}

// The settings that are kept.
const (
	settingPalette = "palette"
	settingPlan    = "plan"
	settingHints   = "hints"
	settingDemo    = "demo-chart"
	settingCaution = "cautions"
	settingStops   = "stops" // see setaside.go
)

func (r *Room) set(name, value string) {
	r.settings[name] = value
	r.store.SaveSetting(name, value, func(err error) {
		if err != nil {
			r.tell(true, "This choice cannot be kept: "+err.Error())
		}
	})
}

func (r *Room) known(id string) bool {
	for _, p := range r.plans {
		if p.ID == id {
			return true
		}
	}
	return false
}

func newest(list []PlanHead) PlanHead {
	best := list[0]
	for _, p := range list[1:] {
		if p.Changed.After(best.Changed) {
			best = p
		}
	}
	return best
}

// openDemo makes a plan of the demo day.
func (r *Room) openDemo() {
	r.progress = "Fetching the demo day."
	r.device.Fetch(demoIndex, func(b []byte, err error) {
		var index struct{ Plan string }
		if err == nil {
			err = json.Unmarshal(b, &index)
		}
		if err != nil {
			r.tell(true, "The demo day cannot be fetched: "+err.Error())
			r.NewPlan()
			return
		}
		r.device.Fetch(demoFolder+index.Plan, func(b []byte, err error) {
			if err == nil {
				_, err = plan.Decode(b)
			}
			if err != nil {
				r.tell(true, "The demo day cannot be opened: "+err.Error())
				r.NewPlan()
				return
			}
			r.adopt(string(b))
		})
	})
}

// adopt makes a plan file the open plan, as a new one.
func (r *Room) adopt(text string) {
	r.open = SavedPlan{PlanHead: PlanHead{ID: r.device.NewID(), Changed: r.device.Now()}, Text: text}
	r.show()
	r.set(settingPlan, r.open.ID)
	r.keep()
}

// show makes everything follow the text of the open plan, after it was opened.
func (r *Room) show() {
	p, err := plan.DecodeDraft([]byte(r.open.Text))
	if err != nil {
		// Nothing of another plan may stand under its name.
		p = plan.New()
		p.Title = "A plan that cannot be read"
		r.tell(true, "This plan cannot be read, and nothing of it is changed: "+plain(err)+". Open another one.")
		r.save.unreadable = r.open.ID
	}
	r.plan, r.open.Title = p, p.Title
	r.rev++
	r.typed, r.cursorBy = map[string]typing{}, false
	r.setPlace(nil)
	r.drafts, r.station, r.finding = nil, stationSearch{}, -1
	r.more, r.windows = nil, nil
	r.chart.SketchCancel()
	r.SetMode(modeLook)
	r.day = Day{Plan: p}
	r.checking.failed, r.checking.problems = "", nil
	r.shown++
	r.clearViews()
	r.chart.SetPrivate(nil)
	r.chart.SetPlan(r.open.Text)
	r.selectPoint(nothing)
	r.recheck()
	if b, ok := planBounds(p); ok {
		r.chart.Fit(b)
	}
	r.redraw()
	r.catchUp()
}

// tell shows a line.
func (r *Room) tell(grave bool, text string) { r.say(notice{grave: grave, text: text}) }

// mostNotices is how many lines are shown at once.
const mostNotices = 4

// say shows a line, which may offer an action. One that is there already is not
// shown again.
func (r *Room) say(n notice) {
	if slices.ContainsFunc(r.notices, func(o notice) bool { return o.text == n.text && o.do == n.do && o.arg == n.arg }) {
		return
	}
	r.notices = r.timely()
	r.told++
	n.id = r.told
	r.notices = append(r.notices, n)
	if len(r.notices) > mostNotices { // trouble stays longest
		i := max(slices.IndexFunc(r.notices, func(o notice) bool { return !o.grave }), 0)
		r.notices = slices.Delete(slices.Clone(r.notices), i, i+1)
	}
	if !n.grave && n.do == "" {
		r.device.After(8*time.Second, func() { r.dismiss(n.id) })
	}
	r.redraw()
}

func (r *Room) dismiss(id int) {
	for i, n := range r.notices {
		if n.id == id {
			r.notices = append(r.notices[:i:i], r.notices[i+1:]...)
			r.redraw()
			return
		}
	}
}

// EngineLost is told that the engine was started again: it has lost the charts.
func (r *Room) EngineLost(why string) {
	r.tell(true, "The part that checks stopped ("+why+") and was started again; the charts are being read anew.")
	lost := r.looking
	for _, t := range lost {
		r.endTaking(t)
		r.tell(true, t.name+" was not opened, or not to its end: open it again.")
	}
	r.looking = nil
	r.checking, r.ribbon, r.station = checking{}, ribbon{}, stationSearch{}
	r.setPlace(nil)
	r.day = Day{Plan: r.plan} // no verdict may stand that nothing is there to keep up
	r.shown++
	r.clearViews()
	r.resend()
	r.recheck()
	for _, t := range lost {
		t.next()
	}
}
