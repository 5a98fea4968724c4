package plan

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"
)

// everything is a plan in which every pointer and every list holds something.
func everything(t *testing.T) *Plan {
	t.Helper()
	p := mustDecode(t, readFile(t, "testdata/example-day.geojson"))
	fill(reflect.ValueOf(p).Elem(), 0)
	return p
}

// fill gives every pointer and list that is empty something to hold.
func fill(v reflect.Value, depth int) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				fill(v.Field(i), depth)
			}
		}
	case reflect.Pointer:
		if v.Type() == reflect.TypeFor[*time.Location]() || depth > 3 {
			return
		}
		if v.IsNil() {
			v.Set(reflect.New(v.Type().Elem()))
		}
		if v.Type() != reflect.TypeFor[*time.Time]() {
			fill(v.Elem(), depth+1)
		}
	case reflect.Slice:
		if v.Len() == 0 {
			v.Set(reflect.MakeSlice(v.Type(), 1, 1))
		}
		for i := range v.Len() {
			fill(v.Index(i), depth+1)
		}
	}
}

// shared lists what two values have in common in memory, but for what is never
// changed: zones, the text of private features, and what was read.
func shared(path string, a, b reflect.Value, found *[]string) {
	switch a.Kind() {
	case reflect.Struct:
		for i := range a.NumField() {
			if f := a.Type().Field(i); f.IsExported() && f.Name != "Feature" {
				shared(path+"."+f.Name, a.Field(i), b.Field(i), found)
			}
		}
	case reflect.Pointer:
		if a.Type() == reflect.TypeFor[*time.Location]() || a.IsNil() {
			return
		}
		if a.Pointer() == b.Pointer() {
			*found = append(*found, path)
			return
		}
		shared(path, a.Elem(), b.Elem(), found)
	case reflect.Slice:
		if a.Len() == 0 {
			return
		}
		if a.Pointer() == b.Pointer() {
			*found = append(*found, path)
			return
		}
		for i := range a.Len() {
			shared(fmt.Sprintf("%s[%d]", path, i), a.Index(i), b.Index(i), found)
		}
	}
}

func TestCloneSharesNothingThatChanges(t *testing.T) {
	p := everything(t)
	q := p.Clone()
	if !reflect.DeepEqual(p, q) {
		t.Fatal("the clone is another plan")
	}
	var found []string
	shared("plan", reflect.ValueOf(p).Elem(), reflect.ValueOf(q).Elem(), &found)
	if len(found) > 0 {
		t.Errorf("shared: %s", strings.Join(found, ", "))
	}
	found = nil
	shared("plan", reflect.ValueOf(p).Elem(), reflect.ValueOf(p).Elem(), &found)
	if len(found) < 20 {
		t.Errorf("a plan shares only %v with itself: the test sees too little", found)
	}
}

// What Write leaves is what its text says: written again it is the same, and so is
// what was read from it, unknown members and the places of private features among it.
func TestWriteKeepsInStep(t *testing.T) {
	names, err := filepath.Glob("testdata/*.geojson")
	if err != nil || len(names) == 0 {
		t.Fatal(err)
	}
	for _, name := range names {
		b, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		p, err := DecodeDraft(b)
		if err != nil {
			continue
		}
		p.Parts = slices.Insert(p.Parts, len(p.Parts), Part{Stay: &Stay{Kind: AtAnchor, Name: "New"}})
		p.Private = append(p.Private, PrivateFeature{Role: RoleHazard, Feature: []byte(`{"type":"Feature","properties":{"role":"hazard","objectClass":"UWTROC"},"geometry":{"type":"Point","coordinates":[-36,43]}}`)})
		text, err := p.Write()
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		read, err := DecodeDraft(text)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if !slices.Equal(p.Roles(), read.Roles()) {
			t.Errorf("%s: %v, read %v", name, p.Roles(), read.Roles())
		}
		for i := range p.Private {
			if p.Private[i].Index != read.Private[i].Index || read.Roles()[p.Private[i].Index] != p.Private[i].Role {
				t.Errorf("%s: private %d is feature %d, read %d", name, i, p.Private[i].Index, read.Private[i].Index)
			}
		}
		again, err := p.Write()
		if err != nil || !bytes.Equal(again, text) {
			t.Errorf("%s: written twice it differs, %v", name, err)
		}
	}
}

// A plan that outgrows a plan file is refused as its text would be.
func TestWriteHasTheLimitsOfAFile(t *testing.T) {
	p := mustDecode(t, readFile(t, "testdata/smallest.geojson"))
	r := p.Routes()[0]
	for len(r.Points) <= MaxPositions {
		r.Points = append(r.Points, r.Points[len(r.Points)-2])
	}
	if _, err := p.Write(); err == nil || !strings.Contains(err.Error(), "waypoints") {
		t.Errorf("%d waypoints: %v", len(r.Points), err)
	}
}
