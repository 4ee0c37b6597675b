// Forbids the network to the process that loads this: sockets, name look-ups, datagrams and fetch throw.
'use strict';
const dgram = require('node:dgram');
const dns = require('node:dns');
const net = require('node:net');

const refuse = (what) => () => {
  throw new Error(`a network call was tried: ${what}`);
};

net.Socket.prototype.connect = refuse('socket');
net.Server.prototype.listen = refuse('server');
dgram.Socket.prototype.bind = refuse('datagram');
dgram.Socket.prototype.send = refuse('datagram');
for (const name of ['lookup', 'resolve', 'resolve4', 'resolve6']) {
  dns[name] = refuse('name');
  dns.promises[name] = refuse('name');
}
globalThis.fetch = refuse('fetch');
globalThis.WebSocket = refuse('web socket');
