package contest

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
)

// Contestant is a running process that answers tasks.
type Contestant struct {
	Name string

	cmd *exec.Cmd
	in  io.WriteCloser
	out *bufio.Reader
}

// Start runs a contestant. What it writes to standard error goes to ours.
func Start(name string, command []string) (*Contestant, error) {
	cmd := exec.Command(command[0], command[1:]...)
	// A Go program under Node gets only a few kilobytes of environment.
	cmd.Env = []string{"PATH=" + os.Getenv("PATH"), "HOME=" + os.Getenv("HOME")}
	cmd.Stderr = os.Stderr
	in, err := cmd.StdinPipe()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	out, err := cmd.StdoutPipe()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if err := cmd.Start(); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return &Contestant{name, cmd, in, bufio.NewReader(out)}, nil
}

// Ask hands over a task and waits for the answers.
func (c *Contestant) Ask(task, answers any) error {
	line, err := json.Marshal(task)
	if err != nil {
		return fmt.Errorf("%s: %w", c.Name, err)
	}
	if _, err := c.in.Write(append(line, '\n')); err != nil {
		return fmt.Errorf("%s: %w", c.Name, err)
	}
	line, err = c.out.ReadBytes('\n')
	if err != nil {
		return fmt.Errorf("%s: no answer: %w", c.Name, err)
	}
	if err := json.Unmarshal(line, answers); err != nil {
		return fmt.Errorf("%s: answer: %w", c.Name, err)
	}
	return nil
}

// Stop ends the contestant: it is to leave when its input ends.
func (c *Contestant) Stop() error {
	c.in.Close()
	if err := c.cmd.Wait(); err != nil {
		return fmt.Errorf("%s: %w", c.Name, err)
	}
	return nil
}

// Serve answers the tasks on standard input until it ends.
func Serve[Task, Answers any](answer func(Task) (Answers, error)) error {
	in, out := json.NewDecoder(os.Stdin), json.NewEncoder(os.Stdout)
	for {
		var task Task
		switch err := in.Decode(&task); {
		case err == io.EOF:
			return nil
		case err != nil:
			return fmt.Errorf("standard input: %w", err)
		}
		answers, err := answer(task)
		if err != nil {
			return err
		}
		if err := out.Encode(answers); err != nil {
			return fmt.Errorf("standard output: %w", err)
		}
	}
}
