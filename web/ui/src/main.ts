import './style/fonts.css';
import './style/tokens.css';
import './style/base.css';
import { mount } from 'svelte';
import App from './app.svelte';

mount(App, { target: document.getElementById('app')! });
