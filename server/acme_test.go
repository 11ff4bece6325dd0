package server_test

import (
	"bufio"
	"context"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/json"
	"encoding/pem"
	"fmt"
	"io"
	"math/big"
	mathrand "math/rand/v2"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/testkit"
)

// makeCertificate writes a certificate for a name or an address, signed by
// itself, as cert.pem and key.pem, and returns it as PEM.
func makeCertificate(t *testing.T, dir, name string) []byte {
	t.Helper()
	return makeCertificateUntil(t, dir, name, time.Now().Add(time.Hour))
}

func makeCertificateUntil(t *testing.T, dir, name string, end time.Time) []byte {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	require.NoError(t, err)
	serial, err := rand.Int(rand.Reader, big.NewInt(1<<62))
	require.NoError(t, err)
	template := &x509.Certificate{
		SerialNumber: serial, Subject: pkix.Name{CommonName: name}, IsCA: true, BasicConstraintsValid: true,
		NotBefore: time.Now().Add(-time.Hour), NotAfter: end,
		ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth}, KeyUsage: x509.KeyUsageDigitalSignature | x509.KeyUsageCertSign,
	}
	if ip := net.ParseIP(name); ip != nil {
		template.IPAddresses = []net.IP{ip}
	} else {
		template.DNSNames = []string{name}
	}
	der, err := x509.CreateCertificate(rand.Reader, template, template, &key.PublicKey, key)
	require.NoError(t, err)
	keyDER, err := x509.MarshalECPrivateKey(key)
	require.NoError(t, err)
	cert := pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der})
	require.NoError(t, os.WriteFile(filepath.Join(dir, "cert.pem"), cert, 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "key.pem"), pem.EncodeToMemory(&pem.Block{Type: "EC PRIVATE KEY", Bytes: keyDER}), 0o600))
	return cert
}

// freePorts finds ports that nobody listens on, below those that systems hand
// out by themselves: no connection made meanwhile takes one of them.
func freePorts(t *testing.T, n int) []int {
	t.Helper()
	var ports []int
	for tries := 0; len(ports) < n; tries++ {
		require.Less(t, tries, 1000, "no port is free")
		port := 10000 + mathrand.IntN(20000)
		if l, err := net.Listen("tcp", fmt.Sprintf("127.0.0.1:%d", port)); err == nil {
			defer func() { require.NoError(t, l.Close()) }() // all at the end, so that they differ
			ports = append(ports, port)
		}
	}
	return ports
}

// browser calls a named server on this machine, as DNS would lead it there.
func browser(rootsPEM []byte, port int) *http.Client {
	roots := x509.NewCertPool()
	roots.AppendCertsFromPEM(rootsPEM)
	return &http.Client{
		Timeout:       3 * time.Minute,
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse },
		Transport: &http.Transport{
			DisableKeepAlives: true, TLSClientConfig: &tls.Config{RootCAs: roots}, ForceAttemptHTTP2: true,
			DialContext: func(ctx context.Context, _, _ string) (net.Conn, error) {
				return new(net.Dialer).DialContext(ctx, "tcp", fmt.Sprintf("127.0.0.1:%d", port))
			},
		},
	}
}

// authority is a certificate authority of RFC 8555 with its own names, both real
// programs that are made for tests (internal/tools/testca).
type authority struct {
	cmds      []*exec.Cmd
	directory string
	caFile    string
	root      []byte
}

// startAuthority starts one that looks for the challenges at two ports.
func startAuthority(t *testing.T, httpPort, tlsPort int) *authority {
	t.Helper()
	dir := t.TempDir()
	build := exec.Command("go", "build", "-o", dir, "github.com/letsencrypt/pebble/v2/cmd/pebble", "github.com/letsencrypt/pebble/v2/cmd/pebble-challtestsrv")
	build.Dir = filepath.Join(testkit.Root(t), "internal", "tools", "testca")
	if out, err := build.CombinedOutput(); err != nil {
		if strings.Contains(string(out), "dial tcp") {
			t.Skip("the test authority cannot be fetched without a network")
		}
		require.NoError(t, err, "%s", out)
	}
	ports := freePorts(t, 4)
	own := makeCertificate(t, dir, "127.0.0.1")
	config, err := json.Marshal(map[string]any{"pebble": map[string]any{
		"listenAddress": fmt.Sprintf("127.0.0.1:%d", ports[0]), "managementListenAddress": fmt.Sprintf("127.0.0.1:%d", ports[1]),
		"certificate": filepath.Join(dir, "cert.pem"), "privateKey": filepath.Join(dir, "key.pem"),
		"httpPort": httpPort, "tlsPort": tlsPort,
	}})
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "config.json"), config, 0o600))
	a := &authority{directory: fmt.Sprintf("https://127.0.0.1:%d/dir", ports[0]), caFile: filepath.Join(dir, "cert.pem")}
	names := fmt.Sprintf("127.0.0.1:%d", ports[2])
	a.run(t, exec.Command(filepath.Join(dir, "pebble-challtestsrv"), "-dnsserver", names, "-defaultIPv6", "", "-doh", "",
		"-http01", "", "-https01", "", "-tlsalpn01", "", "-management", fmt.Sprintf("127.0.0.1:%d", ports[3])))
	ca := exec.Command(filepath.Join(dir, "pebble"), "-config", filepath.Join(dir, "config.json"), "-dnsserver", names)
	ca.Env = append(os.Environ(), "PEBBLE_VA_NOSLEEP=1")
	a.run(t, ca)
	client := browser(own, ports[1])
	require.Eventually(t, func() bool {
		resp, err := client.Get("https://127.0.0.1/roots/0")
		if err != nil {
			return false
		}
		defer func() { _ = resp.Body.Close() }()
		a.root, err = io.ReadAll(resp.Body)
		return err == nil && resp.StatusCode == http.StatusOK
	}, 3*time.Minute, 50*time.Millisecond, "the authority did not come up")
	return a
}

func (a *authority) run(t *testing.T, cmd *exec.Cmd) {
	require.NoError(t, cmd.Start())
	a.cmds = append(a.cmds, cmd)
	t.Cleanup(func() { _ = cmd.Process.Kill() }) // it has ended already where stop was called
}

func (a *authority) stop() {
	for _, cmd := range a.cmds {
		_ = cmd.Process.Kill()
		_ = cmd.Wait() // reports the signal
	}
}

// The real program gets a certificate for its domain from a real authority,
// sends plain HTTP to HTTPS, and after a restart goes on with the certificate it
// has, authority or not.
func TestDomain(t *testing.T) {
	ports := freePorts(t, 2)
	httpPort, tlsPort := ports[0], ports[1]
	ca := startAuthority(t, httpPort, tlsPort)
	binary, data := build(t), t.TempDir()
	flags := []string{
		"--addr", fmt.Sprintf("127.0.0.1:%d", tlsPort), "--http-addr", fmt.Sprintf("127.0.0.1:%d", httpPort),
		"--domain", "bikes.test", "--acme-directory", ca.directory, "--acme-ca", ca.caFile,
	}
	p := start(t, binary, data, flags...)
	defer func() { p.kill() }()
	client := browser(ca.root, tlsPort)
	get := func(url string) *http.Response {
		t.Helper()
		resp, err := client.Get(url)
		require.NoError(t, err)
		require.NoError(t, resp.Body.Close())
		return resp
	}
	// Nobody has called: the first one who does finds a certificate.
	require.Eventually(t, func() bool {
		_, err := os.Stat(filepath.Join(data, "certificates", "bikes.test"))
		return err == nil
	}, 3*time.Minute, 50*time.Millisecond, "the first certificate")
	resp := get("https://bikes.test/healthz")
	assert.Equal(t, http.StatusOK, resp.StatusCode)
	assert.Equal(t, "max-age=31536000", resp.Header.Get("Strict-Transport-Security"))
	assert.Equal(t, "HTTP/2.0", resp.Proto)
	_, err := client.Get("https://other.test/healthz")
	assert.Error(t, err, "no certificate for other names")

	plain := browser(nil, httpPort)
	for url, want := range map[string]string{
		"http://bikes.test/a?b=c": fmt.Sprintf("https://bikes.test:%d/a?b=c", tlsPort),
		"http://evil.test/a":      fmt.Sprintf("https://bikes.test:%d/a", tlsPort),
	} {
		resp, err := plain.Get(url)
		require.NoError(t, err)
		require.NoError(t, resp.Body.Close())
		assert.Equal(t, http.StatusPermanentRedirect, resp.StatusCode)
		assert.Equal(t, want, resp.Header.Get("Location"))
		assert.Empty(t, resp.Header.Get("Strict-Transport-Security"))
	}
	resp, err = plain.Post("http://bikes.test/api/v1/garages", "application/json", strings.NewReader(`{}`))
	require.NoError(t, err)
	require.NoError(t, resp.Body.Close())
	assert.Equal(t, http.StatusForbidden, resp.StatusCode)

	p.kill()
	ca.stop()
	p = start(t, binary, data, flags...)
	assert.Equal(t, http.StatusOK, get("https://bikes.test/healthz").StatusCode)
}

// logged is the program with its logs to read.
func logged(t *testing.T, flags ...string) (*exec.Cmd, *bufio.Scanner) {
	t.Helper()
	cmd := exec.Command(build(t), append([]string{"serve", "--data", t.TempDir(), "--http-addr", "off"}, flags...)...)
	out, err := cmd.StderrPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	t.Cleanup(func() { _ = cmd.Process.Kill() }) // it has ended already, unless the test failed
	return cmd, bufio.NewScanner(out)
}

// lineWith reads on until a line holds the text.
func lineWith(t *testing.T, scan *bufio.Scanner, text string) string {
	t.Helper()
	for scan.Scan() {
		if strings.Contains(scan.Text(), text) {
			return scan.Text()
		}
	}
	t.Fatalf("%q was not logged", text)
	return ""
}

// An authority that is away is said in the logs, and holds up neither serving nor
// stopping.
func TestDomain_authorityAway(t *testing.T) {
	ports := freePorts(t, 2)
	cmd, logs := logged(t, "--addr", fmt.Sprintf("127.0.0.1:%d", ports[0]), "--domain", "bikes.test",
		"--acme-directory", fmt.Sprintf("https://127.0.0.1:%d/dir", ports[1]))
	lineWith(t, logs, "listening")
	line := lineWith(t, logs, "no certificate yet")
	assert.Contains(t, line, `"domain":"bikes.test"`)
	assert.Contains(t, line, `"again_in":"10m0s"`)
	require.NoError(t, cmd.Process.Signal(os.Interrupt))
	assert.NoError(t, cmd.Wait(), "it stops as always, long before the next try")
}

// Files that nobody renews, or only by half, are said in the logs.
func TestCertificateFiles_needCare(t *testing.T) {
	dir := t.TempDir()
	port := freePorts(t, 1)[0]
	makeCertificateUntil(t, dir, "bikes.test", time.Now().Add(-time.Minute))
	certFile, keyFile := filepath.Join(dir, "cert.pem"), filepath.Join(dir, "key.pem")
	key, err := os.ReadFile(keyFile)
	require.NoError(t, err)
	cmd, logs := logged(t, "--addr", fmt.Sprintf("127.0.0.1:%d", port), "--cert", certFile, "--key", keyFile)
	assert.Contains(t, lineWith(t, logs, "has expired on"), certFile)
	lineWith(t, logs, "listening")

	fresh := makeCertificate(t, dir, "bikes.test")
	require.NoError(t, os.WriteFile(keyFile, key, 0o600)) // the old one
	require.NoError(t, os.Chtimes(certFile, time.Now(), time.Now().Add(time.Minute)))
	_, err = browser(fresh, port).Get("https://bikes.test/healthz")
	assert.Error(t, err)
	assert.Contains(t, lineWith(t, logs, "cannot be used"), keyFile)
	require.NoError(t, cmd.Process.Signal(os.Interrupt))
	assert.NoError(t, cmd.Wait())
}

// Certificate files are used as they are, and again when somebody renews them.
func TestCertificateFiles(t *testing.T) {
	dir := t.TempDir()
	first := makeCertificate(t, dir, "bikes.test")
	p := start(t, build(t), t.TempDir(), "--cert", filepath.Join(dir, "cert.pem"), "--key", filepath.Join(dir, "key.pem"), "--http-addr", "off")
	defer p.kill()
	_, port, err := net.SplitHostPort(strings.TrimPrefix(p.url, "http://"))
	require.NoError(t, err)
	var n int
	_, err = fmt.Sscan(port, &n)
	require.NoError(t, err)
	resp, err := browser(first, n).Get("https://bikes.test/healthz")
	require.NoError(t, err)
	require.NoError(t, resp.Body.Close())
	assert.Empty(t, resp.Header.Get("Strict-Transport-Security"), "only for a domain of its own")

	second := makeCertificate(t, dir, "bikes.test")
	require.NoError(t, os.Chtimes(filepath.Join(dir, "cert.pem"), time.Now(), time.Now().Add(time.Minute)))
	resp, err = browser(second, n).Get("https://bikes.test/healthz")
	require.NoError(t, err)
	require.NoError(t, resp.Body.Close())

	require.NoError(t, os.WriteFile(filepath.Join(dir, "cert.pem"), []byte("half writ"), 0o600))
	require.NoError(t, os.Chtimes(filepath.Join(dir, "cert.pem"), time.Now(), time.Now().Add(2*time.Minute)))
	resp, err = browser(second, n).Get("https://bikes.test/healthz")
	require.NoError(t, err, "while the new one cannot be read, the old one goes on")
	require.NoError(t, resp.Body.Close())
}

func TestServe_badHTTPS(t *testing.T) {
	binary := build(t)
	for name, flags := range map[string][]string{
		"give both":   {"--cert", "x"},
		"not both":    {"--cert", "x", "--key", "y", "--domain", "z.test"},
		"no ports":    {"--domain", "127.0.0.1"},
		"no blanks":   {"--domain", "a.test, b.test"},
		"such as":     {"--domain", "a.test,,b_c.test"},
		"as bikes.ex": {"--domain", "localhost"},
		"no address":  {"--domain", "a.test,-b.test"},
		"for --domai": {"--acme-directory", "https://ca.test/dir"},
		"they need i": {"--acme-ca", "ca.pem", "--cert", "x", "--key", "y"},
		"from 1":      {"--max-database-mib", "-5"},
		"whole num":   {"--max-database-mib", "0"},
		"leads to":    {"--http-addr", ":80"},
		"neither":     {"--trusted-proxy", "my proxy"},
		"no such":     {"--cert", "/nowhere/c", "--key", "/nowhere/k", "--http-addr", "off", "--addr", "127.0.0.1:0"},
		"no certific": {"--domain", "z.test", "--acme-ca", filepath.Join(testkit.Root(t), "go.mod"), "--http-addr", "off", "--addr", "127.0.0.1:0"},
	} {
		out, err := exec.Command(binary, append([]string{"serve", "--data", t.TempDir()}, flags...)...).CombinedOutput()
		assert.Error(t, err, name)
		assert.Contains(t, string(out), name)
	}
}
