package app

// In place of crypto.go, route.go and state.go: what of them the rest of the
// package asks for. This app has one page, keeps its state itself and encrypts
// nothing; who calls for more has to take the module's own files in again.

import "sync"

const leftOut = "go-app: left out of the browser's program: see wasm/slim"

func encrypt(string, []byte) ([]byte, error) { panic(leftOut) }

func decrypt(string, []byte) ([]byte, error) { panic(leftOut) }

// State is a state of the module's own keeping, of which there is none.
type State struct{}

// Observer watches such a state.
type Observer struct{}

type stateManager struct{}

func (m *stateManager) Observe(Context, string, any) Observer { panic(leftOut) }

func (m *stateManager) Get(Context, string, any) { panic(leftOut) }

func (m *stateManager) Set(Context, string, any) State { panic(leftOut) }

func (m *stateManager) Delete(Context, string) { panic(leftOut) }

func (m *stateManager) Cleanup() {}

func (m *stateManager) CleanupExpiredPersistedStates(Context) {}

type router struct {
	mu     sync.RWMutex
	routes map[string]func() Composer
}

func makeRouter() router {
	return router{
		routes: make(map[string]func() Composer),
	}
}

func (r *router) route(path string, newComponent func() Composer) {
	r.mu.Lock()
	defer r.mu.Unlock()

	r.routes[path] = newComponent
}

func (r *router) routeWithRegexp(string, func() Composer) { panic(leftOut) }

func (r *router) createComponent(path string) (Composer, bool) {
	r.mu.RLock()
	defer r.mu.RUnlock()

	if newComponent, routed := r.routes[path]; routed {
		return newComponent(), true
	}
	return nil, false
}
