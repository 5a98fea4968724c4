package engine

import (
	"errors"
	"fmt"

	"keelroom/geo/geojson"
	"keelroom/geo/layer"
	"keelroom/hazards/plan"
)

// files looks into files that were given: plans, archives and cells.
type files struct {
	jobs *jobs
	pace *pace
}

// What a file can be that is no chart.
const (
	IsPlan    = "plan"
	IsArchive = "archive"
)

// OpenBody says what a file is. A file that is neither plan nor archive is What "".
// Wrong says why one of them cannot be read. Progress over an archive brings its plans
// and sets, some at a time; the contents of the sets' files, in their order, are the
// reply's Files.
type OpenBody struct {
	What  string        `json:"what"`
	Wrong string        `json:"wrong,omitempty"`
	Plans []OpenedPlan  `json:"plans,omitempty"`
	Sets  []ArchivedSet `json:"sets,omitempty"`
}

// OpenedPlan is a plan of an archive, which can be read.
type OpenedPlan struct {
	Title string `json:"title"`
	ArchivedPlan
}

// A slice of an archive has at most so many plans, and so many bytes unless one plan
// alone has more.
const (
	sliceOf    = 20
	sliceBytes = 256 << 10
)

// size is how many bytes all states of a plan have.
func (p *ArchivedPlan) size() int {
	n := len(p.Plan)
	for _, text := range append(p.Past[:len(p.Past):len(p.Past)], p.Future...) {
		n += len(text)
	}
	return n
}

// sliceEnd is where the slice ends that begins at a plan.
func sliceEnd(plans []ArchivedPlan, from int) int {
	bytes := plans[from].size()
	for to := from + 1; ; to++ {
		if to == len(plans) || to == from+sliceOf {
			return to
		}
		if bytes += plans[to].size(); bytes > sliceBytes {
			return to
		}
	}
}

// openFile looks at what a file is that may be a plan or an archive, so that the page
// need not read it.
func (f *files) openFile(j *job) error {
	if len(j.Files) != 1 {
		return fmt.Errorf("%d files; one is wanted", len(j.Files))
	}
	if err := f.jobs.progress(j, "Looking into "+j.Files[0].Name+"."); err != nil {
		return err
	}
	b := j.Files[0].Data
	switch {
	case isArchive(b):
		return f.openArchive(j, b)
	case looksLikePlan(b):
		return f.jobs.done(j, OpenBody{What: IsPlan, Wrong: wrongPlan(b)}, nil)
	}
	return f.jobs.done(j, OpenBody{}, nil)
}

// looksLikePlan says whether a file has the foreign member of a plan.
func looksLikePlan(b []byte) bool {
	found := false
	r := geojson.NewReader(b)
	err := r.Object(func(key string) error {
		found = found || key == "plan"
		_, err := r.Raw()
		return err
	})
	return err == nil && found
}

// wrongPlan says why a plan file cannot be read, "" where it can.
func wrongPlan(b []byte) string {
	_, err := plan.DecodeDraft(b)
	var wrong *plan.Errors
	switch {
	case err == nil:
		return ""
	case errors.As(err, &wrong):
		return wrong.List[0].Error()
	}
	return err.Error()
}

// openArchive reads an archive and hands it over in slices.
func (f *files) openArchive(j *job, b []byte) error {
	shown := 0
	a, err := readArchive(b, func(read int) error {
		if read >= shown+sliceOf {
			shown = read
			return f.jobs.progress(j, fmt.Sprintf("Looking into %s: %d plans and charts so far.", j.Files[0].Name, read))
		}
		return f.pace.pause()
	})
	switch {
	case errors.Is(err, errCancelled):
		return err
	case err != nil:
		return f.jobs.done(j, OpenBody{What: IsArchive, Wrong: err.Error()}, nil)
	}
	if err := f.handPlans(j, a); err != nil {
		return err
	}
	if err := f.handSets(j, a); err != nil {
		return err
	}
	return f.jobs.done(j, OpenBody{What: IsArchive}, nil)
}

// handPlans hands the plans of an archive over, some at a time.
func (f *files) handPlans(j *job, a *Archive) error {
	for from, to := 0, 0; from < len(a.Plans); from = to {
		body := OpenBody{What: IsArchive}
		to = sliceEnd(a.Plans, from)
		for _, p := range a.Plans[from:to] {
			body.Plans = append(body.Plans, OpenedPlan{p.Title, p})
		}
		if err := f.hand(j, body, nil, to, len(a.Plans)+len(a.Sets)); err != nil {
			return err
		}
	}
	return nil
}

// handSets hands the sets of an archive over, one by one, with their files.
func (f *files) handSets(j *job, a *Archive) error {
	for i, set := range a.Sets {
		var files []layer.File
		for k := range set.Files {
			f := &set.Files[k]
			files = append(files, layer.File{Name: f.Name, Data: f.data()})
			f.Text, f.Bytes = "", nil
		}
		if err := f.hand(j, OpenBody{What: IsArchive, Sets: []ArchivedSet{set}}, files, len(a.Plans)+i+1, len(a.Plans)+len(a.Sets)); err != nil {
			return err
		}
	}
	return nil
}

// hand hands a slice over.
func (f *files) hand(j *job, body OpenBody, files []layer.File, done, total int) error {
	raw, err := bodyOf(body)
	if err != nil {
		return err
	}
	f.jobs.post(j, Reply{State: Progress, Words: "Handing the archive over.", Done: done, Total: total, Body: raw, Files: files})
	return f.pace.pause()
}
