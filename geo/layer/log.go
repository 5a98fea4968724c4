package layer

import (
	"fmt"

	"keelroom/geo/chart"
)

// Listed is how many messages of one code are listed; the rest are counted.
const Listed = 20

// Log collects messages.
type Log struct {
	messages []chart.Message
	counts   map[kindOfMessage]int
	order    []kindOfMessage
	fatal    bool
}

type kindOfMessage struct {
	level chart.Level
	code  string
}

// Add takes a message in.
func (l *Log) Add(m chart.Message) {
	kind := kindOfMessage{m.Level, m.Code}
	if l.counts == nil {
		l.counts = make(map[kindOfMessage]int)
	}
	if l.counts[kind] == 0 {
		l.order = append(l.order, kind)
	}
	l.counts[kind]++
	l.fatal = l.fatal || m.Level == chart.FileError
	if l.counts[kind] <= Listed {
		l.messages = append(l.messages, m)
	}
}

// Fatal tells whether a file error was among them.
func (l *Log) Fatal() bool { return l.fatal }

// Messages are those listed, in the order they came, then one for each code
// that had more, with their number.
func (l *Log) Messages() []chart.Message {
	out := l.messages[:len(l.messages):len(l.messages)]
	for _, kind := range l.order {
		if more := l.counts[kind] - Listed; more > 0 {
			out = append(out, chart.Message{
				Level: kind.level, Code: kind.code,
				Found:  fmt.Sprintf("%d more like these", more),
				Wanted: fmt.Sprintf("the first %d are listed", Listed),
			})
		}
	}
	return out
}
