package app

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"keelroom/app/engine"
	"keelroom/hazards/plan"
)

// archive is everything that is kept on a device, in one file: for a move to
// another one, or a copy in a drawer. Files of layers are kept as their text, cells
// in base64.
type archive struct {
	Version  int               `json:"keelroom_archive"`
	Cautions []string          `json:"cautions"`
	Plans    []archivedPlan    `json:"plans"`
	Sets     []archivedSet     `json:"sets"`
	Settings map[string]string `json:"settings"`
}

type archivedPlan struct {
	ID     string   `json:"id"`
	Plan   string   `json:"plan"` // the plan file, to the letter
	Past   []string `json:"past,omitempty"`
	Future []string `json:"future,omitempty"`
}

type archivedSet struct {
	Name   string              `json:"name"`
	Hidden bool                `json:"hidden,omitempty"`
	Files  []archivedFile      `json:"files"`
	Said   []engine.SetMessage `json:"said,omitempty"`
}

type archivedFile struct {
	Name  string `json:"name"`
	Text  string `json:"text,omitempty"`
	Bytes []byte `json:"bytes,omitempty"` // of a file that is no text, in base64
}

const archiveVersion = 1

// ExportAll saves everything in one file.
func (r *Room) ExportAll() {
	a := archive{Version: archiveVersion, Cautions: plan.StandingCautions(), Settings: r.settings}
	for _, s := range r.sets {
		if s.demo || s.failed != "" && !s.kept && s.cell == "" {
			continue
		}
		files := s.Files
		if len(files) == 0 && s.trying != nil { // it is being read
			files = s.trying.files
		}
		if len(files) == 0 {
			continue
		}
		a.Sets = append(a.Sets, archivedOf(s.SavedSet, files))
	}
	for _, o := range r.opening {
		if o.kept != "" { // of an earlier version, and being looked into
			a.Sets = append(a.Sets, archivedOf(o.SavedSet, o.Files))
		}
	}
	r.archivePlans(a, r.plans)
}

func archivedOf(s SavedSet, files []File) archivedSet {
	set := archivedSet{Name: s.Name, Hidden: s.Hidden, Said: s.Said}
	for _, f := range files {
		kept := archivedFile{Name: f.Name}
		if b := f.Data.Bytes(); utf8.Valid(b) {
			kept.Text = string(b)
		} else {
			kept.Bytes = b
		}
		set.Files = append(set.Files, kept)
	}
	return set
}

// archivePlans fetches one plan after the other, then saves.
func (r *Room) archivePlans(a archive, left []PlanHead) {
	if len(left) == 0 {
		b, err := json.Marshal(a)
		if err != nil {
			r.tell(true, "The archive cannot be written: "+err.Error())
			return
		}
		r.device.Save("Keelroom archive.json", "application/json", string(b))
		return
	}
	take := func(p SavedPlan, err error) {
		if err != nil {
			r.tell(true, fmt.Sprintf("%s cannot be read and is not in the archive: %v", left[0].Title, err))
		} else {
			a.Plans = append(a.Plans, archivedPlan{p.ID, p.Text, p.Past, p.Future})
		}
		r.archivePlans(a, left[1:])
	}
	if left[0].ID == r.open.ID {
		take(r.open, nil)
		return
	}
	if w, ok := r.save.waiting[left[0].ID]; ok {
		take(w, nil)
		return
	}
	r.store.Plan(left[0].ID, take)
}

// importArchive takes an archive in beside what is there, if the file is one.
// Nothing that is kept already is changed.
func (r *Room) importArchive(f File) bool {
	var a archive
	b := f.Data.Bytes()
	if !strings.Contains(string(b[:min(len(b), 64)]), `"keelroom_archive"`) {
		return false
	}
	if err := a.read(b); err != nil {
		r.tell(true, f.Name+" is an archive that cannot be read, and nothing was changed: "+err.Error())
		return true
	}
	for _, p := range a.Plans {
		r.archived(p)
	}
	for _, s := range a.Sets {
		set := &chartSet{SavedSet: SavedSet{ID: r.device.NewID(), Name: s.Name, Hidden: s.Hidden, Order: r.nextOrder(), Said: s.Said}}
		for _, f := range s.Files {
			data := Bytes(f.Text)
			if f.Bytes != nil {
				data = f.Bytes
			}
			set.Files = append(set.Files, File{Name: f.Name, Data: data})
		}
		if cell, mixed := cellOfAll(set.Files); cell != "" || mixed { // it may be open already
			r.openCells(&opening{SavedSet: set.SavedSet})
			continue
		}
		r.sets = append(r.sets, set)
		r.send(set, func(taken bool) { r.opened(set, taken) })
	}
	r.tell(false, fmt.Sprintf("%s: %s taken in, %s being opened.", f.Name, counted(len(a.Plans), "plan is", "plans are"), counted(len(a.Sets), "set of chart files is", "sets of chart files are")))
	return true
}

// read reads an archive and looks at all of it before any of it is used.
func (a *archive) read(b []byte) error {
	if err := json.Unmarshal(b, a); err != nil {
		return err
	}
	if a.Version != archiveVersion {
		return fmt.Errorf("version %d; version %d is wanted", a.Version, archiveVersion)
	}
	for i, p := range a.Plans {
		for _, text := range append(append([]string{p.Plan}, p.Past...), p.Future...) {
			if _, err := plan.DecodeDraft([]byte(text)); err != nil {
				return fmt.Errorf("plan %d: %s", i+1, plain(err))
			}
		}
	}
	for _, s := range a.Sets {
		if len(s.Files) == 0 {
			return errors.New(s.Name + " has no files")
		}
	}
	return nil
}

// archived keeps a plan of an archive, as a new one where there is one by its
// id already.
func (r *Room) archived(a archivedPlan) {
	p, err := plan.DecodeDraft([]byte(a.Plan))
	if err != nil {
		return
	}
	kept := SavedPlan{PlanHead: PlanHead{ID: a.ID, Title: p.Title, Rev: 1, Changed: r.device.Now()}, Text: a.Plan, Past: a.Past, Future: a.Future}
	if kept.ID == "" || r.known(kept.ID) {
		kept.ID = r.device.NewID()
	}
	r.store.SavePlan(kept, func(err error) {
		if err != nil {
			r.tell(true, p.Title+" cannot be kept: "+err.Error())
			return
		}
		r.listed(kept.PlanHead)
		r.redraw()
	})
}

// withCautions puts the standing cautions into a plan file that leaves the
// device: a foreign member, which readers of GeoJSON pass over.
func withCautions(planFile string) string {
	if strings.Contains(planFile, `"cautions"`) || !strings.HasPrefix(planFile, "{") {
		return planFile
	}
	list, _ := json.Marshal(plan.StandingCautions()) // texts only: does not fail
	return `{"cautions":` + string(list) + "," + planFile[1:]
}
