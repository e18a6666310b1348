// The floor of a doorbell: a bare socket.io server of its own process that answers at once.
import { createServer } from 'node:http';
import { Server } from 'socket.io';

const http = createServer();
new Server(http).on('connection', (socket) => socket.on('echo', (answer) => answer()));
http.listen(0, '127.0.0.1', () => process.stdout.write(`listening on ${http.address().port}\n`));
