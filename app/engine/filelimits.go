package engine

import (
	"fmt"

	"keelroom/geo/enc"
	"keelroom/geo/layer"
	"keelroom/hazards/plan"
)

// FileLimits says how large files may be, as the decoders have it: the page refuses
// what is larger by its size, before it reads a byte of it.
type FileLimits struct {
	Files    int        `json:"files"`    // that a folder may hold
	Together FileKind   `json:"together"` // all files that are given at once
	Kinds    []FileKind `json:"kinds"`    // the first that fits is the file's
}

// FileKind is a kind of files and how many bytes it may have.
type FileKind struct {
	// Names is a pattern of the names, in small letters, that ECMAScript reads as well.
	Names string `json:"names"`
	// Begins, unless it is "", is among the first 64 bytes of a file of the kind. It is
	// looked for in files that are too large for another kind.
	Begins string `json:"begins,omitempty"`
	Bytes  int    `json:"bytes"`
	// Sum: all files of the kind that are given at once are one chart, and count together.
	Sum bool `json:"sum,omitempty"`
	// Aside: a larger one that does not begin as JSON is left out, and the others are
	// taken.
	Aside bool `json:"aside,omitempty"`
	// Words say what is wanted, in a sentence of its own.
	Words string `json:"words"`
}

// Limits are those of all kinds of files.
func Limits() FileLimits {
	const zip, numbered, text, json, others = `\.zip$`, `\.\d{3}$`, `\.txt$`, `\.(geo)?json$`, ``
	most, cell := megabytes(enc.MaxBytes), megabytes(layer.MaxBytes)
	return FileLimits{
		Files:    enc.MaxFiles,
		Together: FileKind{Bytes: enc.MaxBytes, Words: fmt.Sprintf("All that is opened at once has at most %s. Open it in parts.", most)},
		Kinds: []FileKind{
			{Names: zip, Bytes: enc.MaxBytes, Words: fmt.Sprintf("An archive of charts has at most %s, unpacked. Open the files in it in parts.", most)},
			{Names: numbered, Bytes: layer.MaxBytes, Words: fmt.Sprintf("A chart cell has at most %s with its updates.", cell)},
			{Names: text, Bytes: enc.MaxText, Aside: true, Words: fmt.Sprintf("A text that comes with chart cells has at most %d kB.", enc.MaxText>>10)},
			{Names: others, Begins: archiveMark, Bytes: enc.MaxBytes, Words: fmt.Sprintf("An archive of plans has at most %s.", most)},
			{Names: json, Bytes: layer.MaxBytes, Sum: true, Words: fmt.Sprintf("A layer, or all layers of one chart, have at most %s, a plan %d. Open a part of them.", cell, plan.MaxBytes>>20)},
			{Names: others, Bytes: layer.MaxBytes, Words: fmt.Sprintf("A chart cell or a layer has at most %s, a plan %d.", cell, plan.MaxBytes>>20)},
		},
	}
}

func megabytes(bytes int) string { return fmt.Sprintf("%d MB", bytes>>20) }
