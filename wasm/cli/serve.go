//go:build !js

package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"os"
	"os/signal"
	"syscall"
	"time"

	"keelroom/web"
)

// appFiles are the files that the app is made of.
var appFiles fs.FS = web.Files

// shutdownWait is how long answers under way may take when the server ends.
const shutdownWait = 5 * time.Second

// runServe serves the app until it is told to stop.
func runServe(args []string, _, diag io.Writer) error {
	f := flags("serve")
	addr := f.String("addr", "localhost:8000", "where to listen")
	if err := f.Parse(args); err != nil {
		return err
	}
	if f.NArg() > 0 {
		return fmt.Errorf("%q after the flags; nothing is wanted there", f.Arg(0))
	}
	b, err := newBundle(appFiles, "/", false)
	if err != nil {
		return err
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	return serve(ctx, *addr, b, diag)
}

// serve serves a bundle until the context ends, and then lets the answers under
// way be finished.
func serve(ctx context.Context, addr string, b *bundle, diag io.Writer) error {
	listener, err := net.Listen("tcp", addr)
	if err != nil {
		return err
	}
	server := &http.Server{
		Handler: b, ReadHeaderTimeout: 10 * time.Second, ReadTimeout: 30 * time.Second, IdleTimeout: 2 * time.Minute,
		WriteTimeout: 5 * time.Minute, MaxHeaderBytes: 64 << 10,
	}
	fmt.Fprintf(diag, "Keelroom is at http://%s/ (build %s). Ctrl-C ends it.\n", heard(addr, listener.Addr()), b.version)
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(listener) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	last, cancel := context.WithTimeout(context.Background(), shutdownWait)
	defer cancel()
	if err := server.Shutdown(last); err != nil && !errors.Is(err, context.DeadlineExceeded) {
		return err
	}
	return nil
}

// heard is where the server is to be found: the host as it was asked for, for a
// browser keeps what it stores by that name, and the port that it got.
func heard(asked string, got net.Addr) string {
	host, _, err := net.SplitHostPort(asked)
	_, port, err2 := net.SplitHostPort(got.String())
	if err != nil || err2 != nil || host == "" {
		return got.String()
	}
	return net.JoinHostPort(host, port)
}
