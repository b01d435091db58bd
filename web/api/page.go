package api

import (
	"io/fs"
	"net/http"
	"path"
	"strings"
)

// page serves the built page. Files with a hash in their name may be kept by
// the browser; the page itself is asked for anew.
func page(files fs.FS) http.Handler {
	server := http.FileServerFS(files)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		name := strings.TrimPrefix(path.Clean(r.URL.Path), "/")
		if name == "" || name == "." {
			name = "index.html"
		}
		if strings.HasPrefix(name, "api/") {
			http.NotFound(w, r)
			return
		}
		if _, err := fs.Stat(files, name); err != nil {
			if name == "index.html" {
				w.Header().Set("Content-Type", "text/plain; charset=utf-8")
				w.WriteHeader(http.StatusServiceUnavailable)
				_, _ = w.Write([]byte("The page is not built. Run: make demo\n"))
				return
			}
			http.NotFound(w, r)
			return
		}
		if strings.HasPrefix(name, "assets/") {
			w.Header().Set("Cache-Control", "public, max-age=31536000, immutable")
		} else {
			w.Header().Set("Cache-Control", "no-cache")
		}
		server.ServeHTTP(w, r)
	})
}
