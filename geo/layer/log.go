package layer

import (
	"fmt"
	"strings"
	"unicode"

	"keelroom/geo/chart"
)

// Listed is how many messages of one code and cause are listed; the rest are
// counted. mostCauses is how many causes of one code are counted apart.
const (
	Listed     = 20
	mostCauses = 8
)

// Log collects messages.
type Log struct {
	messages []chart.Message
	kinds    map[kindOfMessage]*messageCount
	causes   map[kindOfMessage]int // of each level and code
	order    []kindOfMessage
	fatal    bool
}

// kindOfMessage is a code and what causes it.
type kindOfMessage struct {
	level chart.Level
	code  string
	cause string
}

type messageCount struct {
	listed, more int
	wanted       string // of the first
}

// causeOf is what a message wants, its numbers and quoted texts left out: those of
// one cause want the same.
func causeOf(m *chart.Message) string {
	quoted := false
	return strings.Map(func(r rune) rune {
		if r == '"' {
			quoted = !quoted
		}
		if quoted || r == '"' || unicode.IsDigit(r) {
			return -1
		}
		return r
	}, m.Wanted)
}

// kindOf is the kind of a message; causes beyond mostCauses are one.
func (l *Log) kindOf(m *chart.Message) (kindOfMessage, *messageCount) {
	if l.kinds == nil {
		l.kinds, l.causes = make(map[kindOfMessage]*messageCount), make(map[kindOfMessage]int)
	}
	of := kindOfMessage{m.Level, m.Code, ""}
	kind := of
	kind.cause = causeOf(m)
	if l.kinds[kind] == nil && l.causes[of] >= mostCauses {
		kind.cause = "others"
	}
	if l.kinds[kind] == nil {
		l.kinds[kind] = &messageCount{wanted: m.Wanted}
		l.causes[of]++
		l.order = append(l.order, kind)
	}
	return kind, l.kinds[kind]
}

// Add takes a message in.
func (l *Log) Add(m chart.Message) {
	_, n := l.kindOf(&m)
	l.fatal = l.fatal || m.Level == chart.FileError
	switch {
	case m.More > 0:
		n.more += m.More
	case n.listed < Listed:
		n.listed++
		l.messages = append(l.messages, m)
	default:
		n.more++
	}
}

// Fatal reports whether a file error was among them.
func (l *Log) Fatal() bool { return l.fatal }

// Messages are those listed, in the order they came, then one for each code and
// cause that had more, with their number.
func (l *Log) Messages() []chart.Message {
	out := l.messages[:len(l.messages):len(l.messages)]
	for _, kind := range l.order {
		if n := l.kinds[kind]; n.more > 0 {
			out = append(out, chart.Message{Level: kind.level, Code: kind.code, More: n.more,
				Found: fmt.Sprintf("%d more like these", n.more), Wanted: n.wanted})
		}
	}
	return out
}

// Counted lists no more than Listed messages of one code and cause and counts the
// rest, of messages that may have been counted before, such as those of several sets.
func Counted(messages []chart.Message) []chart.Message {
	var l Log
	for _, m := range messages {
		l.Add(m)
	}
	return l.Messages()
}
