package main

import (
	"errors"
	"fmt"
	"maps"
	"slices"

	"keelroom/testdata/bench/contest"
	"keelroom/testdata/bench/crossings/legs"
)

// field is the running contestants and what each said of the last task.
type field struct {
	running map[string]*contest.Contestant
	said    map[string]legs.Answers
}

// agreement counts the legs on which a row's two contestants agree.
type agreement func(*field, legs.Task, *contest.Row) (int, error)

// play runs the rounds. All contestants get the same new legs each round, in
// turn, from another first one each time.
func (b *bench) play(commands map[string][]string, rows []contest.Row, halfM float64, agree agreement) (err error) {
	chosen, err := newChooser(b.folder)
	if err != nil {
		return err
	}
	f := &field{map[string]*contest.Contestant{}, map[string]legs.Answers{}}
	defer func() { err = errors.Join(err, f.stop()) }()
	for name, command := range commands {
		if f.running[name], err = contest.Start(name, command); err != nil {
			delete(f.running, name)
			return err
		}
	}
	for round := range b.rounds {
		task := legs.Task{HalfM: halfM, Legs: chosen.legs(b.count)}
		if err := f.ask(task, round); err != nil {
			return err
		}
		for i := range rows {
			if err := f.note(&rows[i], task, round > 0, agree); err != nil {
				return err
			}
		}
	}
	return nil
}

func (f *field) ask(task legs.Task, first int) error {
	names := slices.Sorted(maps.Keys(f.running))
	for i := range names {
		name := names[(i+first)%len(names)]
		a, err := f.again(name, task, task.HalfM)
		if err != nil {
			return err
		}
		f.said[name] = a
	}
	return nil
}

// again asks one contestant, with a half-width of its own.
func (f *field) again(name string, task legs.Task, halfM float64) (a legs.Answers, err error) {
	task.HalfM = halfM
	if err := f.running[name].Ask(task, &a); err != nil {
		return a, err
	}
	if len(a.Areas) != len(task.Legs) && len(a.Things) != len(task.Legs) {
		return a, fmt.Errorf("%s: answers for %d or %d legs; wanted %d", name, len(a.Areas), len(a.Things), len(task.Legs))
	}
	return a, nil
}

func (f *field) note(row *contest.Row, task legs.Task, timed bool, agree agreement) error {
	n, err := agree(f, task, row)
	if err != nil {
		return err
	}
	row.Agree, row.Of = row.Agree+n, row.Of+len(task.Legs)
	if timed {
		row.OursNs = append(row.OursNs, float64(f.said[row.Ours].Ns)/float64(len(task.Legs)))
		row.PeerNs = append(row.PeerNs, float64(f.said[row.Peer].Ns)/float64(len(task.Legs)))
	}
	return nil
}

func (f *field) stop() error {
	var all []error
	for _, c := range f.running {
		all = append(all, c.Stop())
	}
	return errors.Join(all...)
}
