//go:build !js

package browser

import (
	"bufio"
	"io"
	"net/http"
	"net/http/httptest"
	"os/exec"
	"regexp"
	"strings"
	"sync"
	"testing"
)

// server is the built program, serving the app.
type server struct {
	t       *testing.T
	program string
	addr    string // host and port, the same after every start
	running *exec.Cmd
}

// serve starts the program on a free port. It is killed when the test ends.
func serve(t *testing.T) *server {
	t.Helper()
	s := &server{t: t, program: program, addr: "localhost:0"}
	t.Cleanup(s.kill)
	s.start()
	return s
}

func (s *server) origin() string { return "http://" + s.addr }

// url of the app.
func (s *server) url() string { return s.origin() + "/" }

var told = regexp.MustCompile(`http://([^/ ]+)/`)

// start starts the program, and comes back when it listens.
func (s *server) start() {
	s.t.Helper()
	cmd := exec.Command(s.program, "serve", "-addr", s.addr)
	words, err := cmd.StderrPipe()
	if err != nil {
		s.t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		s.t.Fatalf("the program does not start: %v", err)
	}
	s.running = cmd
	line, err := bufio.NewReader(words).ReadString('\n')
	at := told.FindStringSubmatch(line)
	if at == nil {
		s.t.Fatalf("the program does not tell where it serves: %q, %v", line, err)
	}
	s.addr = at[1]
	go io.Copy(io.Discard, words) // ends with the program
}

// kill ends the program at once, as a lost network would.
func (s *server) kill() {
	if s.running == nil {
		return
	}
	_ = s.running.Process.Kill()
	_ = s.running.Wait() // says that it was killed
	s.running = nil
}

// site is the app as static files below a path, on a plain file server.
type site struct {
	*httptest.Server
	base  string
	mu    sync.Mutex
	asked []string // paths asked for
}

// serveSite writes the app for a base such as "/sub/" and serves it there and
// nowhere else.
func serveSite(t *testing.T, base string) *site {
	t.Helper()
	folder := t.TempDir()
	if out, err := exec.Command(program, "site", "-base", base, folder).CombinedOutput(); err != nil {
		t.Fatalf("site: %v\n%s", err, out)
	}
	s := &site{base: base}
	files := http.StripPrefix(strings.TrimSuffix(base, "/"), http.FileServer(http.Dir(folder)))
	s.Server = httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		s.mu.Lock()
		s.asked = append(s.asked, r.URL.Path)
		s.mu.Unlock()
		if !strings.HasPrefix(r.URL.Path, base) {
			http.NotFound(w, r)
			return
		}
		files.ServeHTTP(w, r)
	}))
	t.Cleanup(s.Close)
	return s
}

// outside are the paths asked for that are not below the base.
func (s *site) outside() (paths []string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, p := range s.asked {
		if !strings.HasPrefix(p, s.base) {
			paths = append(paths, p)
		}
	}
	return paths
}
