package engine

import (
	"encoding/json"
	"fmt"
	"unicode/utf8"

	"keelroom/geo/layer"
)

// planText is the text that carries a request's plan file.
const planText = "plan"

// EncodeRequest writes the head of a request, and the texts that go beside it.
// Its Files go beside it too.
func EncodeRequest(r Request) (head []byte, texts map[string]string, err error) {
	if r.Plan != "" {
		texts = map[string]string{planText: r.Plan}
		r.Plan = ""
	}
	head, err = json.Marshal(r)
	return head, texts, err
}

// DecodeRequest reads a request: its head and what came beside it. A plan may
// stand in the head or among the texts. The error says what is wanted.
func DecodeRequest(head []byte, files []layer.File, texts map[string]string) (Request, error) {
	var r Request
	if err := decodeHead(head, &r); err != nil {
		return Request{}, fmt.Errorf("request: %w", err)
	}
	if r.Kind == "" {
		return Request{}, fmt.Errorf("request: no kind; one of the kinds of request is wanted")
	}
	if text, ok := texts[planText]; ok {
		r.Plan = text
	}
	r.Files = files
	return r, nil
}

// EncodeReply writes the head of a reply; its Texts go beside it.
func EncodeReply(r Reply) ([]byte, error) { return json.Marshal(r) }

// DecodeReply reads a reply: its head and the texts that came beside it.
func DecodeReply(head []byte, texts map[string]string) (Reply, error) {
	var r Reply
	if err := decodeHead(head, &r); err != nil {
		return Reply{}, fmt.Errorf("reply: %w", err)
	}
	switch r.State {
	case Progress, Done, Failed, Cancelled:
	default:
		return Reply{}, fmt.Errorf("reply: state %q; progress, done, failed or cancelled is wanted", r.State)
	}
	r.Texts = texts
	return r, nil
}

func decodeHead(head []byte, into any) error {
	if !utf8.Valid(head) {
		return fmt.Errorf("the head is not UTF-8; JSON is wanted")
	}
	if err := json.Unmarshal(head, into); err != nil {
		return fmt.Errorf("the head is not what it should be: %w", err)
	}
	return nil
}
