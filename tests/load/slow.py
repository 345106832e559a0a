"""Holds clients on a host who say nothing, say half a head, or take what they asked for a few bytes at a time.

    python3 tests/load/slow.py 127.0.0.1:8080 500 30

holds 500 of them for 30 seconds, asks for the front page once a second meanwhile as any reader would, and says how many
answers came and the longest that one took.
"""
import socket
import sys
import time

place, count, seconds = sys.argv[1], int(sys.argv[2]), float(sys.argv[3])
host, port = place.rsplit(":", 1)
address = (host, int(port))


def client(kind):
    s = socket.create_connection(address, timeout=20)
    if kind == 1:
        s.sendall(b"GET /words.html HTTP/1.1\r\nHost: a\r\nX-Slow: ")
    if kind == 2:
        s.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 2048)
        s.sendall(b"GET /carry/page.html HTTP/1.1\r\nHost: a\r\n\r\n")
    s.setblocking(False)
    return s


held = [(n % 3, client(n % 3)) for n in range(count)]
print(f"{len(held)} held", flush=True)
until, asked, failed, longest = time.time() + seconds, 0, 0, 0.0
while time.time() < until:
    for n, (kind, s) in enumerate(held):
        try:
            if kind == 1:
                s.send(b"a")
            if kind == 2:
                s.recv(64)
        except BlockingIOError:
            pass
        except OSError:
            # It was let go, as it should be after a while; another takes its place.
            s.close()
            held[n] = (kind, client(kind))
    begun = time.time()
    try:
        s = socket.create_connection(address, timeout=10)
        s.sendall(b"GET / HTTP/1.1\r\nHost: a\r\nConnection: close\r\n\r\n")
        answer = b""
        while part := s.recv(65536):
            answer += part
        failed += not answer.startswith(b"HTTP/1.1 200")
    except OSError:
        failed += 1
    asked += 1
    longest = max(longest, time.time() - begun)
    time.sleep(max(0, 1 - (time.time() - begun)))
print(f"asked {asked}, failed {failed}, longest {longest * 1000:.0f} ms")
