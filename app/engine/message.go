package engine

import (
	"encoding/json"

	"keelroom/geo/layer"
	"keelroom/geo/library"
)

// The kinds of request, with what each takes and what its reply holds.
const (
	// PutSet takes Set, Name, Files and LeftOut; ChartRev is the chart's revision
	// afterwards. The files are GeoJSON layers, or one S-57 cell with its updates.
	// Body SetInfo, Drawing (see Draw). What has the same id is replaced. When
	// the chart cannot be read, or a cell would become older, the reply is Failed
	// with a SetInfo that holds the messages, and what had that id stays.
	PutSet = "put-set"
	// SortFiles takes Files: S-57 cells, updates, catalogues and zips of them. The
	// charts stay as they are. Body SortBody; the reply's Files are the cells and
	// updates in them, named by what they say of themselves.
	SortFiles = "sort-files"
	// OpenFile takes one of Files, which may be a plan or an archive of them. Body
	// OpenBody, also with Progress.
	OpenFile = "open-file"
	// DropSet takes Set. One that is not there is no error.
	DropSet = "drop-set"
	// CheckPlan takes Plan. Body CheckBody, texts "report" (the report as a
	// file), "day" (see Day) and "private" (a drawing of the plan's own zones and
	// hazards). A plan that is not complete is Failed with a ProblemsBody.
	CheckPlan = "check"
	// Ribbon takes Plan. Body RibbonBody: of Progress the new slots, of Done all.
	Ribbon = "ribbon"
	// FindAnchorages takes Plan, Stay, Bounds, and Time where the plan's way does not lead
	// to the stay: when she arrives. Body AnchoragesBody: with Progress the places found
	// so far.
	FindAnchorages = "anchorages"
	// ShelterGrid takes Plan, Stay, Bounds and Time as FindAnchorages does, and Cells. Body
	// ShelterBody: with Progress the hours worked out so far.
	ShelterGrid = "shelter"
	// LieHere takes Plan, Stay, Time as FindAnchorages does, Lon and Lat. Body LieBody.
	LieHere = "lie-here"
	// FindStations takes Text, or Lon and Lat, or all. Body StationsBody.
	FindStations = "stations"
	// OneStation takes Text, the station's id. Body StationBody.
	OneStation = "station"
	// AskPlace takes Lon, Lat, Time and Plan. Body PlaceBody.
	AskPlace = "place"
	// CancelRequest takes Text, the id of the request. Sets are never cancelled.
	CancelRequest = "cancel"
)

// States of a reply. Every request gets any number of Progress and then one of
// the others.
const (
	Progress  = "progress"
	Done      = "done"
	Failed    = "failed"
	Cancelled = "cancelled"
)

// Request is what the screen asks. Members that its kind does not take are
// ignored.
type Request struct {
	ID       int      `json:"id"`
	Kind     string   `json:"kind"`
	PlanRev  int      `json:"plan_rev,omitempty"`
	ChartRev int      `json:"chart_rev,omitempty"`
	Set      string   `json:"set,omitempty"`
	Name     string   `json:"name,omitempty"`
	Plan     string   `json:"plan,omitempty"` // a plan file
	Text     string   `json:"text,omitempty"`
	Lon      *float64 `json:"lon,omitempty"`
	Lat      *float64 `json:"lat,omitempty"`
	Time     int64    `json:"time,omitempty"` // Unix seconds
	// Stay is a stay of the plan by its place among the day's parts, and Bounds where to look for
	// another: west, south, east, north.
	Stay   int         `json:"stay,omitempty"`
	Bounds *[4]float64 `json:"bounds,omitempty"`
	// Cells is how many cells a grid of shelter has on its longer side; 0: as many as are
	// told apart.
	Cells int `json:"cells,omitempty"`
	// LeftOut are messages about files that are not among Files, to be reported with the
	// set: what was refused or is missing.
	LeftOut []SetMessage `json:"left_out,omitempty"`

	Files []layer.File `json:"-"`
}

// Reply is what the engine answers. ID, Kind and the revisions are the
// request's.
type Reply struct {
	ID       int             `json:"id"`
	Kind     string          `json:"kind"`
	State    string          `json:"state"`
	PlanRev  int             `json:"plan_rev,omitempty"`
	ChartRev int             `json:"chart_rev,omitempty"`
	Words    string          `json:"words,omitempty"` // what it is at, or why it failed and what to do
	Done     int             `json:"done,omitempty"`  // of Total, for Progress
	Total    int             `json:"total,omitempty"`
	Body     json.RawMessage `json:"body,omitempty"` // by kind

	Texts   map[string]string `json:"-"`
	Drawing []string          `json:"-"` // of PutSet, in pieces; it goes on as the text "draw"
	Files   []layer.File      `json:"-"`
	View    []byte            `json:"-"` // of MovePoint, the whole message
}

// SetInfo describes a layer set. Bounds are west, south, east, north in
// degrees, nil where it has no position.
type SetInfo struct {
	ID        string       `json:"id"`
	Title     string       `json:"title"`
	Name      string       `json:"name"`
	Authority string       `json:"authority"`
	Scale     int          `json:"scale"` // denominator, 0 unknown
	Datum     int          `json:"datum"` // VERDAT of depths, 0 unknown
	DatumName string       `json:"datum_name"`
	Edition   string       `json:"edition"`
	IssueDate string       `json:"issue_date"`
	Source    string       `json:"source"`
	Licence   string       `json:"licence"`
	Features  int          `json:"features"`
	Bounds    *[4]float64  `json:"bounds"`
	Cell      *CellInfo    `json:"cell"` // nil for GeoJSON layers
	Same      []string     `json:"same"` // ids of the sets that hold the same chart
	Messages  []SetMessage `json:"messages"`
	More      int          `json:"more"` // messages beyond those listed
}

// CellInfo is what an S-57 cell says of itself, with its updates in.
type CellInfo struct {
	Name      string      `json:"name"`
	File      string      `json:"file"`
	Edition   string      `json:"edition"`
	Update    string      `json:"update"`
	IssueDate string      `json:"issue_date"` // YYYY-MM-DD
	Applied   int         `json:"applied"`    // files of updates
	Cancelled string      `json:"cancelled"`  // file that its producer cancelled it with, "" in force
	Scale     int         `json:"scale"`
	Producer  string      `json:"producer"`
	Purpose   string      `json:"purpose"`
	Comment   string      `json:"comment"`
	DatumName string      `json:"datum_name"`
	Bounds    *[4]float64 `json:"bounds"`
}

// SetMessage is a message of the layer profile. Level is warning, feature or
// file.
type SetMessage struct {
	Level  string `json:"level"`
	Code   string `json:"code"`
	File   string `json:"file,omitempty"`
	Path   string `json:"path,omitempty"`
	Found  string `json:"found"`
	Wanted string `json:"wanted"`
	More   int    `json:"more,omitempty"` // messages that it stands for beside those listed
	// Edition and Update are what a cell is known to have come to, where that is what
	// the message is about, for what was left out only.
	Edition string `json:"edition,omitempty"`
	Update  int    `json:"update,omitempty"`
}

// SortBody describes the Files of its reply, one by one.
type SortBody struct {
	Files    []library.CellFile `json:"files"` // without their Data
	Messages []SetMessage       `json:"messages"`
}

// CheckBody is the short answer of a check.
type CheckBody struct {
	Verdict  string       `json:"verdict"`
	Messages []SetMessage `json:"messages"` // of the plan's own layer
}

// ProblemsBody is why a plan cannot be checked.
type ProblemsBody struct {
	Problems []Problem `json:"problems"`
	More     int       `json:"more,omitempty"` // beyond those listed
}

// Problem is one thing wrong with a plan: the path in the plan file, and what was
// found and what is wanted.
type Problem struct {
	Path string `json:"path"`
	Want string `json:"want"`
	// Question: what is there may be meant, but is more likely a slip.
	Question bool `json:"question,omitempty"`
}
