package engine

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"

	"keelroom/hazards/plan"
)

// Archive is everything that is kept on a device, in one file: for a move to
// another one, or a copy in a drawer. Files of layers are kept as their text, cells
// in base64.
type Archive struct {
	Version  int               `json:"keelroom_archive"`
	Cautions []string          `json:"cautions"`
	Plans    []ArchivedPlan    `json:"plans"`
	Sets     []ArchivedSet     `json:"sets"`
	Settings map[string]string `json:"settings"`
}

// ArchivedPlan is a plan with its earlier and undone states.
type ArchivedPlan struct {
	ID     string   `json:"id"`
	Title  string   `json:"-"`
	Plan   string   `json:"plan"` // the plan file, to the letter
	Past   []string `json:"past,omitempty"`
	Future []string `json:"future,omitempty"`
}

// ArchivedSet is a layer set.
type ArchivedSet struct {
	Name    string         `json:"name"`
	Hidden  bool           `json:"hidden,omitempty"`
	Files   []ArchivedFile `json:"files"`
	LeftOut []SetMessage   `json:"said,omitempty"` // what was refused of it or is missing
}

// ArchivedFile is a file of a set.
type ArchivedFile struct {
	Name  string `json:"name"`
	Text  string `json:"text,omitempty"`
	Bytes []byte `json:"bytes,omitempty"` // of a file that is no text, in base64
}

// ArchiveVersion is that of the archives that are written.
const ArchiveVersion = 1

// data is the file's contents.
func (f *ArchivedFile) data() []byte {
	if f.Bytes != nil {
		return f.Bytes
	}
	return []byte(f.Text)
}

// archiveMark is near the beginning of every archive.
const archiveMark = `"keelroom_archive"`

func isArchive(b []byte) bool { return bytes.Contains(b[:min(len(b), 64)], []byte(archiveMark)) }

// readArchive reads an archive and looks at all of it before any of it is used.
// pause is called after each plan and set with how many there are so far.
func readArchive(b []byte, pause func(read int) error) (*Archive, error) {
	a := &Archive{}
	r := archiveReader{Decoder: json.NewDecoder(bytes.NewReader(b)), into: a, pause: pause}
	err := eachMember(r.Decoder, func(key string) error {
		switch key {
		case "keelroom_archive":
			return r.Decode(&a.Version)
		case "plans":
			return eachItem(r.Decoder, r.plan)
		case "sets":
			return eachItem(r.Decoder, r.set)
		}
		var other json.RawMessage
		return r.Decode(&other)
	})
	if err == nil && a.Version != ArchiveVersion {
		err = fmt.Errorf("version %d; version %d is wanted", a.Version, ArchiveVersion)
	}
	return a, err
}

// archiveReader reads the plans and sets of an archive.
type archiveReader struct {
	*json.Decoder
	into  *Archive
	read  int // plans and sets so far
	pause func(read int) error
}

func (r *archiveReader) next() error {
	r.read++
	return r.pause(r.read)
}

func (r *archiveReader) plan() error {
	var p ArchivedPlan
	if err := r.Decode(&p); err != nil {
		return err
	}
	if err := p.look(len(r.into.Plans), r.pause, r.read); err != nil {
		return err
	}
	r.into.Plans = append(r.into.Plans, p)
	return r.next()
}

func (r *archiveReader) set() error {
	var s ArchivedSet
	if err := r.Decode(&s); err != nil {
		return err
	}
	if len(s.Files) == 0 {
		return errors.New(s.Name + " has no files")
	}
	r.into.Sets = append(r.into.Sets, s)
	return r.next()
}

// look reads every state of a plan, the nth of an archive.
func (p *ArchivedPlan) look(n int, pause func(int) error, read int) error {
	for i, text := range append(append([]string{p.Plan}, p.Past...), p.Future...) {
		draft, err := plan.DecodeDraft([]byte(text))
		if err != nil {
			return fmt.Errorf("plan %d: %w", n+1, err)
		}
		if i == 0 {
			p.Title = draft.Title
		}
		if err := pause(read); err != nil {
			return err
		}
	}
	return nil
}

// eachMember calls fn before the value of every member of an object, which it reads.
func eachMember(d *json.Decoder, fn func(key string) error) error {
	if err := wantDelim(d, '{'); err != nil {
		return err
	}
	for d.More() {
		key, err := d.Token()
		if err != nil {
			return err
		}
		name, _ := key.(string)
		if err := fn(name); err != nil {
			return err
		}
	}
	return wantDelim(d, '}')
}

// eachItem calls fn before every item of a list, which it reads; null is none.
func eachItem(d *json.Decoder, fn func() error) error {
	t, err := d.Token()
	if err != nil || t == nil {
		return err
	}
	if t != json.Delim('[') {
		return fmt.Errorf("%v where a list is wanted", t)
	}
	for d.More() {
		if err := fn(); err != nil {
			return err
		}
	}
	return wantDelim(d, ']')
}

func wantDelim(d *json.Decoder, want json.Delim) error {
	t, err := d.Token()
	if err == nil && t != want {
		err = fmt.Errorf("%v where %v is wanted", t, want)
	}
	return err
}
