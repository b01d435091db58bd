package main

import (
	"bufio"
	"bytes"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"fmt"
	"io"
	"math/big"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
)

// served is the program serving a folder, as a process of its own.
type served struct {
	cmd    *exec.Cmd
	url    string
	mu     sync.Mutex
	stderr bytes.Buffer
	gone   chan struct{} // closed when the process has ended
}

// Write takes what the process says on stderr.
func (s *served) Write(b []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.stderr.Write(b)
}

func (s *served) said() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.stderr.String()
}

// built is the folder of the program that was built for the tests.
var built string

// program builds the real program once for the tests of the package.
var program = sync.OnceValues(func() (path string, err error) {
	if built, err = os.MkdirTemp("", "costrel-test-"); err != nil {
		return "", err
	}
	path = filepath.Join(built, "costrel.exe")
	out, err := exec.Command("go", "build", "-o", path, ".").CombinedOutput()
	if err != nil {
		err = fmt.Errorf("%w: %s", err, out)
	}
	return path, err
})

func command(t *testing.T, dir string, args ...string) *exec.Cmd {
	t.Helper()
	path, err := program()
	if err != nil {
		t.Fatal(err)
	}
	return exec.Command(path, append([]string{"serve", "--port", "0", "--dir", dir}, args...)...)
}

var address = regexp.MustCompile(`is at (https?)://\S*?:(\d+)/`)

// start serves a folder and waits until the program says where.
func start(t *testing.T, cmd *exec.Cmd) *served {
	t.Helper()
	s := &served{cmd: cmd, gone: make(chan struct{})}
	cmd.Stderr = s
	out, err := cmd.StdoutPipe()
	if err == nil {
		err = cmd.Start()
	}
	if err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewReader(out)
	line, err := lines.ReadString('\n')
	at := address.FindStringSubmatch(line)
	if at == nil {
		_ = cmd.Wait()
		t.Fatalf("the server did not start: %q %v %s", line, err, s.said())
	}
	s.url = at[1] + "://127.0.0.1:" + at[2]
	go func() {
		_, _ = io.Copy(io.Discard, lines)
		_ = cmd.Wait()
		close(s.gone)
	}()
	t.Cleanup(s.kill)
	return s
}

// kill ends the process without a word, as the system does with kill -9.
func (s *served) kill() {
	_ = s.cmd.Process.Kill()
	<-s.gone
}

// stop asks the process to end and returns its exit code.
func (s *served) stop(t *testing.T) int {
	t.Helper()
	s.interrupt(t)
	<-s.gone
	return s.cmd.ProcessState.ExitCode()
}

func (s *served) interrupt(t *testing.T) {
	t.Helper()
	if err := s.cmd.Process.Signal(syscall.SIGTERM); err != nil {
		t.Fatal(err)
	}
}

// demo returns a folder with a copy of one demo design, and its text.
func demo(t *testing.T, name string) (dir, text string) {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", "examples", name))
	if err != nil {
		t.Fatal(err)
	}
	dir = t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, name), b, 0o644); err != nil {
		t.Fatal(err)
	}
	return dir, string(b)
}

func get(t *testing.T, client *http.Client, url string, headers ...string) (int, string) {
	t.Helper()
	req, err := http.NewRequest("GET", url, nil)
	if err != nil {
		t.Fatal(err)
	}
	for i := 0; i+1 < len(headers); i += 2 {
		req.Header.Set(headers[i], headers[i+1])
	}
	r, err := client.Do(req)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	b, err := io.ReadAll(r.Body)
	if err != nil {
		t.Fatal(err)
	}
	return r.StatusCode, string(b)
}

func write(t *testing.T, path, text string) string {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

const goodToken = "3f0c9a51d2b84e77a6105c2e"

func TestServeRefusals(t *testing.T) {
	dir, _ := demo(t, "wrenhollow.yaml")
	aside := t.TempDir()
	short, good := write(t, filepath.Join(aside, "short"), "secret\n"), write(t, filepath.Join(aside, "good"), goodToken+"\n")
	spaced := write(t, filepath.Join(aside, "spaced"), "a token with spaces in the middle\n")
	for _, c := range []struct {
		args  []string
		token string // in the variable
		says  string
	}{
		{[]string{"--address", "0.0.0.0"}, "", "needs a token of at least 24 characters"},
		{[]string{"--address", "::"}, "", "needs a token"},
		{[]string{"--address", "0.0.0.0", "--token-file", short}, "", "6 characters; it needs at least 24"},
		{[]string{"--address", "0.0.0.0"}, "secret", "6 characters"},
		{[]string{"--token-file", short}, "", "6 characters"},
		{[]string{"--token-file", spaced}, "", "space"},
		{[]string{"--token-file", filepath.Join(aside, "none")}, "", "none"},
		{[]string{"--token-file", good}, goodToken, "two tokens"},
		{[]string{"--token", goodToken}, "", "unknown flag"},
		{[]string{"--tls-cert", good}, "", "both"},
		{[]string{"--tls-cert", good, "--tls-key", good}, "", "certificate and key"},
		{[]string{"--address", "192.0.2.1", "--token-file", good}, "", "cannot listen"},
	} {
		cmd := command(t, dir, c.args...)
		if c.token != "" {
			cmd.Env = append(os.Environ(), tokenVariable+"="+c.token)
		}
		out, err := cmd.CombinedOutput()
		if err == nil || cmd.ProcessState.ExitCode() != exitInput || !strings.Contains(string(out), c.says) {
			t.Errorf("%v: exit %d, %q, want %d and %q", c.args, cmd.ProcessState.ExitCode(), out, exitInput, c.says)
		}
		if strings.Contains(string(out), goodToken) {
			t.Errorf("%v: the token is printed", c.args)
		}
	}
}

func TestServeWithToken(t *testing.T) {
	dir, _ := demo(t, "wrenhollow.yaml")
	file := write(t, filepath.Join(t.TempDir(), "token"), goodToken+"\n")
	inVariable := command(t, dir, "--address", "0.0.0.0")
	inVariable.Env = append(os.Environ(), tokenVariable+"="+goodToken)
	for _, cmd := range []*exec.Cmd{command(t, dir, "--address", "0.0.0.0", "--token-file", file), inVariable} {
		s := start(t, cmd)
		for auth, want := range map[string]int{"": 401, "Bearer " + goodToken[1:]: 401, "Bearer " + goodToken: 200} {
			if code, _ := get(t, http.DefaultClient, s.url+"/api/designs", "Authorization", auth); code != want {
				t.Errorf("with %q: %d, want %d", auth, code, want)
			}
		}
		if said := s.said(); !strings.Contains(said, "every address") || !strings.Contains(said, "in the clear") || !strings.Contains(said, "TLS") || strings.Contains(said, goodToken) {
			t.Errorf("it says %q", said)
		}
		if code := s.stop(t); code != exitPass {
			t.Errorf("stopped with %d", code)
		}
	}
}

func TestServeSaysTheAddressAsked(t *testing.T) {
	at := &net.TCPAddr{IP: net.IPv6zero, Port: 81}
	for asked, want := range map[string]string{"0.0.0.0": "0.0.0.0:81", "::1": "[::1]:81", "localhost": "localhost:81", "": "[::]:81"} {
		if got := (&serveCmd{Address: asked}).reached(at); got != want {
			t.Errorf("%q: %s", asked, got)
		}
	}
}

// certificate makes a key and a certificate for this machine.
func certificate(t *testing.T) (cert, key string, pool *x509.CertPool) {
	t.Helper()
	private, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	about := &x509.Certificate{SerialNumber: big.NewInt(1), NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().Add(time.Hour), IPAddresses: []net.IP{net.IPv4(127, 0, 0, 1)}, IsCA: true, BasicConstraintsValid: true}
	der, err := x509.CreateCertificate(rand.Reader, about, about, &private.PublicKey, private)
	if err != nil {
		t.Fatal(err)
	}
	secret, err := x509.MarshalPKCS8PrivateKey(private)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	text := pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der})
	pool = x509.NewCertPool()
	pool.AppendCertsFromPEM(text)
	return write(t, filepath.Join(dir, "cert"), string(text)), write(t, filepath.Join(dir, "key"), string(pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: secret}))), pool
}

func TestServeHTTPS(t *testing.T) {
	dir, _ := demo(t, "wrenhollow.yaml")
	cert, key, pool := certificate(t)
	cmd := command(t, dir, "--address", "0.0.0.0", "--tls-cert", cert, "--tls-key", key)
	cmd.Env = append(os.Environ(), tokenVariable+"="+goodToken)
	s := start(t, cmd)
	client := &http.Client{Transport: &http.Transport{TLSClientConfig: &tls.Config{RootCAs: pool}, ForceAttemptHTTP2: true}}
	if code, body := get(t, client, s.url+"/api/designs", "Authorization", "Bearer "+goodToken); code != 200 || !strings.Contains(body, "wrenhollow.yaml") {
		t.Errorf("%d %s", code, body)
	}
	if !strings.HasPrefix(s.url, "https://") || strings.Contains(s.said(), "in the clear") {
		t.Errorf("at %s it says %q", s.url, s.said())
	}
	if _, err := tls.Dial("tcp", strings.TrimPrefix(s.url, "https://"), &tls.Config{RootCAs: pool, MinVersion: tls.VersionTLS10, MaxVersion: tls.VersionTLS11}); err == nil {
		t.Error("TLS 1.1 is spoken")
	}
	client.CloseIdleConnections()
	if code := s.stop(t); code != exitPass {
		t.Errorf("stopped with %d", code)
	}
}
